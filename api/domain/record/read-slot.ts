import { hashEntry, type ReadEntry, readEntry } from '../entry/read.ts'
import { readPlain } from '../log/bytes.ts'
import type { Sha256 } from '../world.ts'

/**
 * An entry's bytes as a record reads them: a kind that this program does not know is unread like a later release's
 * (SPEC L44); undefined where the bytes are out of form.
 */
export const readSlot = (bytes: Uint8Array, sha256: Sha256): ReadEntry | undefined => {
  const read = readEntry(bytes, sha256)
  if (read.ok) return read.value
  if (read.problem.code !== 'kind-unknown') return undefined
  const plain = readPlain(bytes)
  const v = plain.ok && typeof plain.value === 'object' && 'v' in plain.value ? plain.value.v : undefined
  return typeof v === 'number' ? { hash: hashEntry(bytes, sha256), newer: v } : undefined
}
