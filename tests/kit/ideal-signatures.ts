import { equalBytes, joinBytes, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import type { VerifySignature } from '../../api/domain/world.ts'
import { type KeysOf, type SigningKey, uuidV8 } from '../../api/server/keys.ts'
import { sha256 } from '../../api/server/senses.ts'

/**
 * Signatures as theory has them: only who holds the pair can sign, and everybody can check. They stand in for Ed25519
 * where thousands of days are simulated, since a world is given its signatures anyway; some days run with the real ones.
 */
export type Signatures = {
  pair(seed: Uint8Array): SigningKey
  readonly verify: VerifySignature
  readonly keysOf: KeysOf
}

export const createIdealSignatures = (): Signatures => {
  const secrets = new Map<string, Uint8Array>()
  const signed = (secret: Uint8Array, message: Uint8Array): Uint8Array => {
    const tag = sha256(joinBytes(secret, message))
    return joinBytes(tag, tag)
  }
  const pair = (seed: Uint8Array): SigningKey => {
    const publicKey = sha256(joinBytes(toUtf8('public'), seed))
    secrets.set(toHex(publicKey), seed)
    return { publicKey, sign: async (message) => signed(seed, message) }
  }
  const keysOf: KeysOf = (origin) => {
    const log = pair(sha256(toUtf8(`log ${origin}`)))
    const device = pair(sha256(toUtf8(`device ${origin}`)))
    return {
      log: { ...log, noteKey: { name: origin, publicKey: log.publicKey } },
      device: { ...device, id: uuidV8(sha256(toUtf8(`id ${origin}`)).slice(0, 16)) },
    }
  }
  return {
    pair,
    keysOf,
    verify: async (publicKey, message, signature) => {
      const secret = secrets.get(toHex(publicKey))
      return secret !== undefined && equalBytes(signed(secret, message), signature)
    },
  }
}
