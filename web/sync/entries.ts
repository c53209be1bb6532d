import { type EntryProblem, type ReadEntry, readEntry } from '../../api/domain/entry/read.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import type { Result } from '../../api/domain/result.ts'
import type { Sha256 } from '../../api/domain/world.ts'
import type { LogLeaf, OwnEntry } from './kept.ts'
import type { PhoneTx } from './phone-store.ts'

/** What a phone can show: the log as pulled, and its own entries that are not in it yet. */
export type PhoneEntries = { readonly logged: readonly LoggedEntry[]; readonly own: readonly OwnEntry[] }

/** What texts were read as, by the whole text: a phone reads its log again after each write, and bytes never change. */
export type ReadTexts = Map<string, Result<ReadEntry, EntryProblem>>

/**
 * All entries that this phone holds. Own ones that the server refused are left out of `logged`: they stand nowhere, and
 * `own` shows them with the reason. `known` may be kept from one call to the next;
 * `vocabulary` is what this release reads, all that the program knows where undefined.
 */
export const phoneEntries = async (
  tx: PhoneTx,
  sha256: Sha256,
  known: ReadTexts = new Map(),
  vocabulary?: number,
): Promise<PhoneEntries> => {
  const leaves = await tx.list<LogLeaf>('log')
  const own = await tx.list<OwnEntry>('own')
  const readOnce = (text: string) => {
    const before = known.get(text)
    if (before) return before
    const read = readEntry(toUtf8(text), sha256, vocabulary)
    known.set(text, read)
    return read
  }
  const logged = new Map<string, LoggedEntry>()
  for (const leaf of leaves) {
    const read = leaf.text === null ? undefined : readOnce(leaf.text)
    if (read?.ok) logged.set(read.value.hash, { ...read.value, receivedAt: leaf.receivedAt })
  }
  for (const entry of own) {
    if (entry.state.is === 'refused' || logged.has(entry.hash)) continue
    const read = readOnce(entry.text)
    if (read.ok) logged.set(read.value.hash, read.value)
  }
  return { logged: [...logged.values()], own }
}
