import { createPrivateKey, createPublicKey, hkdfSync, sign as signWith } from 'node:crypto'
import { joinBytes, toHex } from '../domain/log/encoding.ts'
import type { NoteKey } from '../domain/log/note.ts'
import type { Sign } from '../domain/world.ts'

/** A key pair that signs for one company. */
export type SigningKey = { readonly publicKey: Uint8Array; readonly sign: Sign }

export type CompanyKeys = {
  /** Signs checkpoints and manifests. */
  readonly log: SigningKey & { readonly noteKey: NoteKey }
  /** The server as a device of the company (SPEC L26): another key, so that neither can speak for the other. */
  readonly device: SigningKey & { readonly id: string }
}

/** A company's keys out of the house's one master key. */
export type KeysOf = (origin: string) => CompanyKeys

/** PKCS #8 of an Ed25519 key, up to its 32-byte seed. Source: RFC 8410 (2018) §7. */
const PKCS8 = new Uint8Array([
  0x30, 0x2e, 0x02, 0x01, 0x00, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x04, 0x22, 0x04, 0x20,
])

/** An Ed25519 pair from its seed of 32 bytes. Source: RFC 8032 (2017) §5.1.5. */
export const signingKey = (seed: Uint8Array): SigningKey => {
  const key = createPrivateKey({ key: Buffer.from(joinBytes(PKCS8, seed)), format: 'der', type: 'pkcs8' })
  const publicKey = new Uint8Array(createPublicKey(key).export({ format: 'der', type: 'spki' }).subarray(-32))
  return { publicKey, sign: async (message) => new Uint8Array(signWith(null, message, key)) }
}

/**
 * Keys by HKDF-SHA-256 (RFC 5869) from a master key of 32 bytes, one purpose and company each. The master key is in a
 * file of mode 0600 or a variable, never in the database.
 */
export const keysFrom = (master: Uint8Array): KeysOf => {
  const known = new Map<string, CompanyKeys>()
  const derive = (purpose: string, length: number): Uint8Array =>
    new Uint8Array(hkdfSync('sha256', master, new Uint8Array(), purpose, length))
  return (origin) => {
    const before = known.get(origin)
    if (before) return before
    const log = signingKey(derive(`screedbook log key v1\n${origin}`, 32))
    const device = signingKey(derive(`screedbook server device key v1\n${origin}`, 32))
    const id = uuidV8(derive(`screedbook server device id v1\n${origin}`, 16))
    const keys = {
      log: { ...log, noteKey: { name: origin, publicKey: log.publicKey } },
      device: { ...device, id },
    }
    known.set(origin, keys)
    return keys
  }
}

/** A UUID made of bytes of one's own. Source: RFC 9562 (2024) §5.8. */
export const uuidV8 = (bytes: Uint8Array): string => {
  const own = bytes.slice()
  own[6] = (own[6]! & 0x0f) | 0x80
  own[8] = (own[8]! & 0x3f) | 0x80
  const hex = toHex(own)
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}
