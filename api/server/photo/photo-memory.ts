import { equalBytes, joinBytes, readHex } from '../../domain/log/encoding.ts'
import type { Sha256 } from '../../domain/world.ts'
import type { PhotoStore } from './photo-store.ts'

/** The twin of `photo-files`, for the simulator and fast tests. */
export const createPhotoMemory = (sha256: Sha256): PhotoStore => {
  const whole = new Map<string, Uint8Array>()
  const parts = new Map<string, Uint8Array>()
  const held: PhotoStore['held'] = async (company, hash, device) =>
    whole.get(`${company}/${hash}`)?.length ?? parts.get(`${company}/${hash}/${device}`)?.length ?? 0
  return {
    held,
    write: async (company, hash, device, offset, part) => {
      if ((await held(company, hash, device)) !== offset) return 'offset-differs'
      const key = `${company}/${hash}/${device}`
      parts.set(key, joinBytes(offset === 0 ? new Uint8Array() : parts.get(key)!, part))
      return offset + part.length
    },
    finish: async (company, hash, device) => {
      const key = `${company}/${hash}/${device}`
      const bytes = parts.get(key)!
      parts.delete(key)
      if (!equalBytes(sha256(bytes), readHex(hash)!)) return 'hash-differs'
      whole.set(`${company}/${hash}`, bytes)
      return 'whole'
    },
    discard: async (company, hash, device) => {
      parts.delete(`${company}/${hash}/${device}`)
    },
    start: async (company, hash, device, length) =>
      parts.get(`${company}/${hash}/${device}`)!.slice(0, length),
    open: async (company, hash) => {
      const bytes = whole.get(`${company}/${hash}`)
      return bytes && { bytes: bytes.length, stream: new Blob([bytes as Uint8Array<ArrayBuffer>]).stream() }
    },
  }
}
