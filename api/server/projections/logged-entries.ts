import type { LeafRow } from '../../../db/log-store/log-store.ts'
import { isUnread, readEntry } from '../../domain/entry/read.ts'
import type { LoggedEntry } from '../../domain/job/standing.ts'
import type { ServerWorld } from '../world.ts'

/** Entries as the fold takes them; bytes that nobody holds any more, or that nobody can read, say nothing. */
export const loggedEntries = (
  leaves: readonly LeafRow[],
  world: Pick<ServerWorld, 'sha256' | 'vocabulary'>,
): LoggedEntry[] =>
  leaves.flatMap((leaf) => {
    const read = leaf.bytes && readEntry(leaf.bytes, world.sha256, world.vocabulary)
    if (!read?.ok) return []
    return [isUnread(read.value) ? read.value : { ...read.value, receivedAt: leaf.receivedAt }]
  })
