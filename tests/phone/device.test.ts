import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterEach, describe, expect, test } from 'vitest'
import { photoTypeOf, readPhotoFile } from '../../web/device/camera.ts'
import { sha256, sha256OfFile } from '../../web/device/sha256.ts'
import { makeWire } from '../../web/device/wire.ts'
import { WireDown } from '../../web/sync/wire.ts'

const bytes = (...parts: (string | number)[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'number' ? [part] : [...part].map((c) => c.charCodeAt(0)))),
  )

describe('what a camera gave', () => {
  test.each([
    [bytes(0xff, 0xd8, 0xff, 0xe1), 'image/jpeg'],
    [bytes(0x89, 'PNG\r\n', 0x1a, '\n'), 'image/png'],
    [bytes('RIFF', 0, 0, 0, 0, 'WEBP'), 'image/webp'],
    [bytes(0, 0, 0, 24, 'ftypheic'), 'image/heic'],
    [bytes(0, 0, 0, 24, 'ftypmif1'), 'image/heic'],
  ])('its type is told by its first bytes (%#)', (file, type) => {
    expect(photoTypeOf(file)).toBe(type)
  })

  test('a film, a page or nothing at all is no photo, whatever its name says', async () => {
    for (const content of [bytes(0, 0, 0, 24, 'ftypqt  '), bytes('<svg>'), bytes()]) {
      const file = new File([content as Uint8Array<ArrayBuffer>], 'ticket.jpg', { type: 'image/jpeg' })
      expect(await readPhotoFile(file)).toMatchObject({ ok: false, problem: { code: 'photo-kind' } })
    }
  })

  test('the bytes are those of the file, and both hashes agree on them', async () => {
    const content = bytes(0xff, 0xd8, 0xff, 'as it came')
    const read = await readPhotoFile(new File([content as Uint8Array<ArrayBuffer>], 'a.jpg'))
    if (!read.ok) throw new Error('no photo')
    expect(read.value.bytes).toEqual(content)
    expect(await sha256OfFile(read.value.bytes)).toEqual(sha256(content))
  })
})

describe('the line to the server', () => {
  let server: Server | undefined
  afterEach(() => {
    server?.closeAllConnections()
    server?.close()
  })

  const serve = (answer: (response: import('node:http').ServerResponse) => void): Promise<string> =>
    new Promise((resolve) => {
      server = createServer((_, response) => answer(response))
      server.listen(0, '127.0.0.1', () =>
        resolve(`http://127.0.0.1:${(server!.address() as AddressInfo).port}/api/x`),
      )
    })

  test('a problem with a code of ours is an answer, whatever its status', async () => {
    const path = await serve((r) => r.writeHead(503).end('{"code":"log-stopped"}'))
    expect((await makeWire()({ method: 'GET', path })).status).toBe(503)
  })

  test('a gateway’s own page says nothing about our request: the line is down', async () => {
    const path = await serve((r) => r.writeHead(502).end('<html>Bad gateway</html>'))
    await expect(makeWire()({ method: 'GET', path })).rejects.toThrow(WireDown)
  })

  test('nobody there, an answer that breaks off, and one that never comes are all a line that is down', async () => {
    await expect(makeWire()({ method: 'GET', path: 'http://127.0.0.1:1/api/x' })).rejects.toThrow(WireDown)
    const broken = await serve((r) => {
      r.writeHead(200, { 'content-length': '100' }).write('half')
      setTimeout(() => r.destroy(), 20)
    })
    await expect(makeWire()({ method: 'GET', path: broken })).rejects.toThrow(WireDown)
    server?.close()
    const silent = await serve(() => {})
    await expect(makeWire(100)({ method: 'GET', path: silent })).rejects.toThrow(WireDown)
  })
})
