import { sha256 as noble } from '@noble/hashes/sha2.js'
import type { Sha256 } from '../../api/domain/world.ts'

/** For leaves and entries: awaited WebCrypto manages only some 30,000 small hashes a second. */
export const sha256: Sha256 = (bytes) => noble(bytes)

const SLICE = 4 * 1024 * 1024

/**
 * For photos: the browser's own, off the page's thread. Where there is none (a page without TLS), in slices with a
 * breath between them, so that the page stays awake.
 */
export const sha256OfFile = async (bytes: Uint8Array): Promise<Uint8Array> => {
  if (globalThis.crypto?.subtle)
    return new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>))
  const hash = noble.create()
  for (let at = 0; at < bytes.length; at += SLICE) {
    hash.update(bytes.subarray(at, at + SLICE))
    await new Promise((resolve) => setTimeout(resolve))
  }
  return hash.digest()
}
