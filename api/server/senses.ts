import { createHash, createPublicKey, hash, type KeyObject, randomBytes, verify } from 'node:crypto'
import { joinBytes, toHex } from '../domain/log/encoding.ts'
import type { RandomBytes, Sha256, VerifySignature } from '../domain/world.ts'
import type { HashFile } from '../verify/archive.ts'

export const sha256: Sha256 = (bytes) => {
  // In one call: no hash object for each of the many small things that a log hashes.
  const digest = hash('sha256', bytes, 'buffer')
  return new Uint8Array(digest.buffer, digest.byteOffset, digest.byteLength)
}

export const hashFile: HashFile = () => {
  const running = createHash('sha256')
  return {
    holdsParts: false,
    add: (part) => {
      running.update(part)
    },
    end: async () => new Uint8Array(running.digest()),
  }
}

export const random: RandomBytes = (length) => new Uint8Array(randomBytes(length))

/** SubjectPublicKeyInfo of an Ed25519 key, up to its 32 bytes. Source: RFC 8410 (2018) §4. */
const SPKI = new Uint8Array([0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00])

/** Reading a key costs more than verifying with it, and the same few devices sign all day. */
const MOST_KEYS = 1000
const known = new Map<string, KeyObject>()

const readKey = (publicKey: Uint8Array): KeyObject => {
  const hex = toHex(publicKey)
  const before = known.get(hex)
  if (before) return before
  const key = createPublicKey({ key: Buffer.from(joinBytes(SPKI, publicKey)), format: 'der', type: 'spki' })
  if (known.size >= MOST_KEYS) known.clear()
  known.set(hex, key)
  return key
}

export const verifySignature: VerifySignature = async (publicKey, message, signature) => {
  if (publicKey.length !== 32 || signature.length !== 64) return false
  try {
    return verify(null, message, readKey(publicKey), signature)
  } catch {
    // Not every 32 bytes are a point on the curve.
    return false
  }
}
