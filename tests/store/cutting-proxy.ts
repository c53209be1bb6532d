import { mkdtemp, rm } from 'node:fs/promises'
import { createConnection, createServer, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Target } from '../../db/connect/target.ts'

type SocketTarget = Target & { at: 'socket' }

/** A simple query `commit`, as it goes over the wire: type Q, length, text, 0. */
const COMMIT = Buffer.from('Q\0\0\0\x0bcommit\0', 'latin1')

/**
 * Stands before a PostgreSQL and cuts the wire at the next COMMIT: before it goes through, or when its answer comes
 * back.
 */
export const createCuttingProxy = async (server: SocketTarget) => {
  const folder = await mkdtemp(join(tmpdir(), 'screedbook-cut-'))
  const sockets = new Set<Socket>()
  let armed: 'lost' | 'kept' | undefined

  const proxy = createServer((client) => {
    const inner = createConnection(`${server.folder}/.s.PGSQL.${server.port}`)
    let cutAtAnswer = false
    const cut = () => {
      client.destroy()
      inner.destroy()
    }
    for (const socket of [client, inner]) {
      sockets.add(socket)
      socket.on('error', cut).on('close', cut)
      socket.on('close', () => sockets.delete(socket))
    }
    client.on('data', (bytes) => {
      if (armed && bytes.includes(COMMIT)) {
        if (armed === 'lost') cut()
        cutAtAnswer = armed === 'kept'
        armed = undefined
      }
      if (!inner.destroyed) inner.write(bytes)
    })
    inner.on('data', (bytes) => {
      if (cutAtAnswer) cut()
      else client.write(bytes)
    })
  })
  await new Promise<void>((resolve) => proxy.listen(`${folder}/.s.PGSQL.${server.port}`, resolve))

  return {
    target: { ...server, folder },
    arm: (outcome: 'lost' | 'kept') => {
      armed = outcome
    },
    /** Cuts every wire that is open. */
    cutAll: () => {
      for (const socket of sockets) socket.destroy()
    },
    close: async () => {
      for (const socket of sockets) socket.destroy()
      await new Promise((resolve) => proxy.close(resolve))
      await rm(folder, { recursive: true, force: true })
    },
  }
}
