import { readEntry } from '../../api/domain/entry/read.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import type { Sha256 } from '../../api/domain/world.ts'
import type { LogLeaf, OwnEntry } from './kept.ts'
import type { PhoneTx } from './phone-store.ts'

/** What a phone can show: the log as pulled, and its own entries that are not in it yet. */
export type PhoneEntries = { readonly logged: readonly LoggedEntry[]; readonly own: readonly OwnEntry[] }

/**
 * All entries that this phone holds. Own ones that the server refused are left out of `logged`: they stand nowhere, and
 * `own` shows them with the reason.
 */
export const phoneEntries = async (tx: PhoneTx, sha256: Sha256): Promise<PhoneEntries> => {
  const leaves = await tx.list<LogLeaf>('log')
  const own = await tx.list<OwnEntry>('own')
  const logged = new Map<string, LoggedEntry>()
  for (const leaf of leaves) {
    const read = leaf.text === null ? undefined : readEntry(toUtf8(leaf.text), sha256)
    if (read?.ok) logged.set(read.value.hash, { ...read.value, receivedAt: leaf.receivedAt })
  }
  for (const entry of own) {
    if (entry.state.is === 'refused' || logged.has(entry.hash)) continue
    const read = readEntry(toUtf8(entry.text), sha256)
    if (read.ok) logged.set(read.value.hash, read.value)
  }
  return { logged: [...logged.values()], own }
}
