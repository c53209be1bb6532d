import { fail, ok, type Result } from '../result.ts'
import type { Sha256 } from '../world.ts'
import { joinBytes } from './encoding.ts'

/** What the company log commits to for one entry: L13. */
export type Leaf = {
  /** Milliseconds since the epoch, by the server's clock as it stood. */
  readonly receivedAt: number
  /** 16 random bytes, the same for all of one thread. */
  readonly tag: Uint8Array
  /** 1 for the first leaf of the thread. */
  readonly count: number
  /** Leaf hash of the thread's previous leaf, 32 zero bytes for its first. */
  readonly previous: Uint8Array
  readonly entryHash: Uint8Array
}

export const LEAF_BYTES = 97
const FORMAT = 1
export const NO_PREVIOUS: Uint8Array = new Uint8Array(32)

export const writeLeaf = (leaf: Leaf): Uint8Array => {
  const bytes = new Uint8Array(LEAF_BYTES)
  const view = new DataView(bytes.buffer)
  bytes[0] = FORMAT
  view.setBigUint64(1, BigInt(leaf.receivedAt))
  bytes.set(leaf.tag, 9)
  view.setBigUint64(25, BigInt(leaf.count))
  bytes.set(leaf.previous, 33)
  bytes.set(leaf.entryHash, 65)
  return bytes
}

/** Fails: `leaf-malformed` for another length or a number past 2^53 − 1; `leaf-format-unknown` (L14). */
export const readLeaf = (bytes: Uint8Array): Result<Leaf, 'leaf-malformed' | 'leaf-format-unknown'> => {
  if (bytes.length > 0 && bytes[0] !== FORMAT) return fail('leaf-format-unknown', '', { format: bytes[0]! })
  if (bytes.length !== LEAF_BYTES) return fail('leaf-malformed', '', { bytes: bytes.length })
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const receivedAt = Number(view.getBigUint64(1))
  const count = Number(view.getBigUint64(25))
  if (!Number.isSafeInteger(receivedAt) || !Number.isSafeInteger(count) || count === 0)
    return fail('leaf-malformed')
  return ok({
    receivedAt,
    tag: bytes.slice(9, 25),
    count,
    previous: bytes.slice(33, 65),
    entryHash: bytes.slice(65, 97),
  })
}

const LEAF_PREFIX = new Uint8Array([0])
const NODE_PREFIX = new Uint8Array([1])

/** RFC 6962 §2.1: SHA-256(0x00 ‖ leaf). Over an entry's bytes it is the entry hash: L5. */
export const hashLeaf = (leaf: Uint8Array, sha256: Sha256): Uint8Array => sha256(joinBytes(LEAF_PREFIX, leaf))

/** RFC 6962 §2.1: SHA-256(0x01 ‖ left ‖ right). */
export const hashNode = (left: Uint8Array, right: Uint8Array, sha256: Sha256): Uint8Array =>
  sha256(joinBytes(NODE_PREFIX, left, right))
