import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, open, rename, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { Readable } from 'node:stream'
import type { PhotoStore } from './photo-store.ts'

/**
 * Photos as files: `<folder>/<company>/<first two digits>/<hash>`, parts under `arriving/<device>/`. Names are made of
 * UUIDs and hashes that were checked before they came here; nothing a sender calls a file is ever part of a path.
 */
export const createPhotoFiles = (folder: string): PhotoStore => {
  const whole = (company: string, hash: string) => path.join(folder, company, hash.slice(0, 2), hash)
  const parts = (company: string, hash: string, device: string) =>
    path.join(folder, company, 'arriving', device, hash)
  const size = async (file: string): Promise<number | undefined> => {
    try {
      return (await stat(file)).size
    } catch {
      return undefined
    }
  }
  const held: PhotoStore['held'] = async (company, hash, device) =>
    (await size(whole(company, hash))) ?? (await size(parts(company, hash, device))) ?? 0

  return {
    held,
    write: async (company, hash, device, offset, part) => {
      const now = await held(company, hash, device)
      if (now !== offset) return 'offset-differs'
      const file = parts(company, hash, device)
      await mkdir(path.dirname(file), { recursive: true })
      const handle = await open(file, offset === 0 ? 'w' : 'r+')
      try {
        await handle.write(part, 0, part.length, offset)
      } finally {
        await handle.close()
      }
      return offset + part.length
    },
    finish: async (company, hash, device) => {
      const file = parts(company, hash, device)
      const digest = createHash('sha256')
      for await (const piece of createReadStream(file)) digest.update(piece)
      if (digest.digest('hex') !== hash) {
        await rm(file, { force: true })
        return 'hash-differs'
      }
      const target = whole(company, hash)
      await mkdir(path.dirname(target), { recursive: true })
      await syncToDisk(file)
      await rename(file, target)
      // The name itself must survive too, before anyone is told that the photo is here.
      await syncToDisk(path.dirname(target))
      return 'whole'
    },
    discard: async (company, hash, device) => rm(parts(company, hash, device), { force: true }),
    start: async (company, hash, device, length) => {
      const handle = await open(parts(company, hash, device), 'r')
      try {
        const { buffer, bytesRead } = await handle.read(new Uint8Array(length), 0, length, 0)
        return buffer.slice(0, bytesRead)
      } finally {
        await handle.close()
      }
    },
    open: async (company, hash) => {
      const file = whole(company, hash)
      const bytes = await size(file)
      if (bytes === undefined) return undefined
      return { bytes, stream: Readable.toWeb(createReadStream(file)) as ReadableStream<Uint8Array> }
    },
  }
}

const syncToDisk = async (target: string): Promise<void> => {
  const handle = await open(target, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
