import { connect, createServer, type Server, type Socket } from 'node:net'

/** A line from one phone to the server that can be cut, as a pocket in a garage cuts it: nothing gets through. */
export type CutLine = {
  /** What this phone knows the server by. */
  readonly url: string
  cut(): void
  mend(): void
  close(): Promise<void>
}

export const layLine = (serverUrl: string): Promise<CutLine> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(serverUrl)
    const open = new Set<Socket>()
    let whole = true
    const server: Server = createServer((phone) => {
      if (!whole) {
        phone.destroy()
        return
      }
      const far = connect(Number(port), hostname)
      for (const [socket, other] of [
        [phone, far],
        [far, phone],
      ] as const) {
        open.add(socket)
        socket.on('error', () => other.destroy())
        socket.on('close', () => {
          open.delete(socket)
          other.destroy()
        })
        socket.pipe(other)
      }
    })
    server.on('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      if (typeof address !== 'object' || address === null) return reject(new Error('no address'))
      resolve({
        url: `http://localhost:${address.port}`,
        cut: () => {
          whole = false
          for (const socket of open) socket.destroy()
        },
        mend: () => {
          whole = true
        },
        close: () =>
          new Promise((done) => {
            for (const socket of open) socket.destroy()
            server.close(() => done())
          }),
      })
    })
  })
