import { hashes, verify as verifyByNoble } from '@noble/ed25519'
import { sha256 as sha256ByNoble, sha512 } from '@noble/hashes/sha2.js'
import { joinBytes } from '../../domain/log/encoding.ts'
import type { Sha256, VerifySignature } from '../../domain/world.ts'
import type { HashFile } from '../archive.ts'

hashes.sha512 = sha512

/** Small things: each way to the browser's own hash and back would cost more than the hash. */
export const sha256: Sha256 = (bytes) => sha256ByNoble(bytes)

/** The browser's own hash takes a file in one piece alone; above this a slower one takes it part by part. */
const ONE_PIECE = 32 * 1024 * 1024

export const hashFile: HashFile = (size) => {
  // Some browsers give pages from a disk no hash of their own.
  const own = globalThis.crypto?.subtle
  return own && size <= ONE_PIECE ? inOnePiece(own) : inParts()
}

const inOnePiece = (subtle: SubtleCrypto): ReturnType<HashFile> => {
  const parts: Uint8Array[] = []
  return {
    holdsParts: true,
    add: (part) => {
      parts.push(part)
    },
    end: async () => {
      const whole = parts.length === 1 ? parts[0]! : joinBytes(...parts)
      return new Uint8Array(await subtle.digest('SHA-256', whole as Uint8Array<ArrayBuffer>))
    },
  }
}

const inParts = (): ReturnType<HashFile> => {
  const running = sha256ByNoble.create()
  return {
    holdsParts: false,
    add: (part) => {
      running.update(part)
    },
    end: async () => running.digest(),
  }
}

const ED25519 = 'Ed25519'

export const verifySignature: VerifySignature = async (publicKey, message, signature) => {
  if (publicKey.length !== 32 || signature.length !== 64) return false
  try {
    const [key, text, sealed] = [publicKey, message, signature] as Uint8Array<ArrayBuffer>[]
    const read = await crypto.subtle.importKey('raw', key!, ED25519, false, ['verify'])
    return await crypto.subtle.verify(ED25519, read, sealed!, text!)
  } catch {
    // A browser without Ed25519, or bytes that are no key: the second one answers no to those too.
    try {
      return verifyByNoble(signature, message, publicKey, { zip215: false })
    } catch {
      return false
    }
  }
}
