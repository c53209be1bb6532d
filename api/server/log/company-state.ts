import type { LogTx } from '../../../db/log-store/log-store.ts'
import { foldMembers, type Members, NO_MEMBERS } from '../../domain/access/members.ts'
import { foldQuarantine, NO_QUARANTINE, type Quarantine } from '../../domain/access/quarantine.ts'
import type { HashedEntry } from '../../domain/entry/read.ts'
import { isUnread, readEntry } from '../../domain/entry/read.ts'
import type { Sha256 } from '../../domain/world.ts'

/** What the sequencer must know of a company's own affairs: a projection of its thread, kept while the process runs. */
export type CompanyState = {
  /** How many leaves of the company's thread this was built from. */
  readonly count: number
  readonly members: Members
  /** Hashes (hex) of bytes whose refusal stands in the log already. */
  readonly refused: ReadonlySet<string>
  /** What withdrawn devices sent, and what was decided on it. */
  readonly quarantine: Quarantine
  /** The greatest size of which an outside authority stamped the checkpoint; 0 where none did. */
  readonly stamped: number
}

export const NO_STATE: CompanyState = {
  count: 0,
  members: NO_MEMBERS,
  refused: new Set(),
  quarantine: NO_QUARANTINE,
  stamped: 0,
}

export const withCompanyEntries = (
  state: CompanyState,
  entries: readonly HashedEntry[],
  count: number,
): CompanyState => ({
  count,
  members: foldMembers(entries, state.members),
  quarantine: foldQuarantine(entries, state.quarantine),
  stamped: Math.max(
    state.stamped,
    ...entries.flatMap(({ entry }) => (entry.kind === 'checkpoint.stamped' ? [entry.body.size] : [])),
  ),
  refused: new Set([
    ...state.refused,
    ...entries.flatMap(({ entry }) => (entry.kind === 'entry.refused' ? [entry.body.hash] : [])),
  ]),
})

/** Brings a state up to the thread's end, reading only what came since. */
export const catchUp = async (
  state: CompanyState,
  company: string,
  read: LogTx['threadLeaves'],
  sha256: Sha256,
): Promise<CompanyState> => {
  const leaves = await read(company, state.count)
  if (leaves.length === 0) return state
  const entries = leaves.flatMap(({ bytes }) => {
    const entry = bytes && readEntry(bytes, sha256)
    return entry?.ok && !isUnread(entry.value) ? [entry.value] : []
  })
  return withCompanyEntries(state, entries, leaves.at(-1)!.count)
}
