import type { Sign, VerifySignature } from '../../api/domain/world.ts'
import { type Database, KEYS } from './database.ts'

/** This device's signing key. Made once, before it joins a company; it never leaves the device. */
export type DeviceKey = {
  readonly publicKey: () => Promise<Uint8Array>
  readonly sign: Sign
  readonly verify: VerifySignature
}

type KeptKey =
  /** The browser holds the private half and gives it to no script, not even ours. */
  | { readonly is: 'sealed'; readonly privateKey: CryptoKey; readonly publicKey: CryptoKey }
  /**
   * Where WebCrypto has no Ed25519 the secret lies in IndexedDB as bytes. What that costs: any script that runs on this
   * origin, and whoever copies the phone's storage, can take the key away and sign in this device's name.
   */
  | { readonly is: 'open'; readonly secret: Uint8Array }

const NAME = 'device'
const ED25519 = 'Ed25519'

export const makeDeviceKey = (database: Database): DeviceKey => {
  let key: Promise<KeptKey> | undefined
  const keptKey = (): Promise<KeptKey> => {
    key ??= findOrMakeKey(database).catch((error: unknown) => {
      key = undefined
      throw error
    })
    return key
  }
  return {
    publicKey: async () => {
      const kept = await keptKey()
      if (kept.is === 'sealed') return new Uint8Array(await crypto.subtle.exportKey('raw', kept.publicKey))
      return (await noble()).getPublicKey(kept.secret)
    },
    sign: async (message) => {
      const kept = await keptKey()
      if (kept.is === 'sealed')
        return new Uint8Array(
          await crypto.subtle.sign(ED25519, kept.privateKey, message as Uint8Array<ArrayBuffer>),
        )
      return (await noble()).sign(message, kept.secret)
    },
    verify,
  }
}

/** Two tabs may make one at once: whichever is kept first is the key, and both go on with that. */
const findOrMakeKey = async (database: Database): Promise<KeptKey> => {
  const known = await keep(database, undefined)
  if (known) return known
  return (await keep(database, await newKey()))!
}

const newKey = async (): Promise<KeptKey> => {
  try {
    const pair = (await crypto.subtle.generateKey(ED25519, false, ['sign', 'verify'])) as CryptoKeyPair
    return { is: 'sealed', privateKey: pair.privateKey, publicKey: pair.publicKey }
  } catch {
    return { is: 'open', secret: crypto.getRandomValues(new Uint8Array(32)) }
  }
}

/** The key on the shelf; `fresh` is put there if none is. Resolves once it is kept for good. */
const keep = async (database: Database, fresh: KeptKey | undefined): Promise<KeptKey | undefined> => {
  const transaction = await database.begin([KEYS], 'readwrite')
  const shelf = transaction.objectStore(KEYS)
  return new Promise((resolve, reject) => {
    let kept: KeptKey | undefined
    const known = shelf.get(NAME)
    known.onsuccess = () => {
      kept = known.result ?? fresh
      if (known.result === undefined && fresh) shelf.put(fresh, NAME)
    }
    transaction.oncomplete = () => resolve(kept)
    transaction.onabort = () => reject(transaction.error ?? new Error('the key could not be kept'))
  })
}

const verify: VerifySignature = async (publicKey, message, signature) => {
  try {
    const raw = publicKey as Uint8Array<ArrayBuffer>
    const key = await crypto.subtle.importKey('raw', raw, ED25519, false, ['verify'])
    return await crypto.subtle.verify(
      ED25519,
      key,
      signature as Uint8Array<ArrayBuffer>,
      message as Uint8Array<ArrayBuffer>,
    )
  } catch {
    try {
      return (await noble()).verify(signature, message, publicKey, { zip215: false })
    } catch {
      return false
    }
  }
}

/** Loaded only where the browser lacks Ed25519. Its own SHA-512, since a page without TLS has no WebCrypto at all. */
const noble = async () => {
  const [ed, { sha512 }] = await Promise.all([import('@noble/ed25519'), import('@noble/hashes/sha2.js')])
  ed.hashes.sha512 = sha512
  return ed
}
