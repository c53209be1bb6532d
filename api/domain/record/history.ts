import type { Members } from '../access/members.ts'
import type { Entry, Source } from '../entry/envelope.ts'
import type { BodyOf, Kind } from '../entry/registry.ts'
import type { HistoryLine } from '../job/view.ts'
import { readLocalTime, toUtcTime } from '../time.ts'
import { type SaidModel, saidOf } from './said.ts'

/** What an entry says: its kind with the body of that kind, lifted to today's shape. */
export type Statement = { [K in Kind]: { readonly kind: K; readonly body: BodyOf<K> } }[Kind]

/** One entry of the job, also where it no longer stands: what it says, when it was recorded and received. */
export type EntryModel = SaidModel &
  Statement & {
    readonly recordedAt: string
    /** UTC; absent on a phone whose entry the server has not taken yet. */
    readonly receivedAt?: string
    /** Whole minutes from recording (device's clock) to receipt (server's); negative where the device's clock is ahead. */
    readonly receiptMinutes?: number
    readonly device: string
    readonly source: Source
    /** Corrected and withdrawn: named by a correction in force, or by a withdrawal in force (SPEC L7). */
    readonly stands: 'stands' | 'corrected' | 'withdrawn'
    readonly corrects?: readonly string[]
    readonly why?: { readonly lang: string; readonly text: string }
  }

/** A correction or a withdrawal, with what it names as it was. Entries it names may be of another thread, or withheld. */
export type ChangeModel = {
  readonly entry: string
  readonly is: 'correction' | 'withdrawal'
  readonly names: readonly string[]
}

export const historyOf = (lines: readonly HistoryLine[], members: Members): EntryModel[] => {
  const inForce = lines.filter((line) => line.inForce)
  const named = (by: readonly HistoryLine[]) => new Set(by.flatMap((line) => line.entry.corrects ?? []))
  const withdrawn = named(inForce.filter((line) => line.kind === 'entry.withdrawn'))
  const corrected = named(inForce.filter((line) => line.kind !== 'entry.withdrawn'))
  return lines.map(({ hash, kind, entry, receivedAt }) => ({
    ...saidOf(hash, entry, members),
    // The reader has held this body to this kind.
    ...({ kind, body: entry.body } as Statement),
    recordedAt: entry.recordedAt,
    ...(receivedAt === undefined
      ? {}
      : { receivedAt: toUtcTime(receivedAt), receiptMinutes: receiptMinutes(entry, receivedAt) }),
    device: entry.device,
    source: entry.source,
    stands: corrected.has(hash) ? 'corrected' : withdrawn.has(hash) ? 'withdrawn' : 'stands',
    ...(entry.corrects ? { corrects: entry.corrects } : {}),
    ...(entry.why ? { why: entry.why } : {}),
  }))
}

const receiptMinutes = (entry: Entry, receivedAt: number): number =>
  Math.floor((receivedAt - (readLocalTime(entry.recordedAt) ?? 0)) / 60_000)

/**
 * The first entries that an entry's corrections go back to, by hash: none where it corrects nothing. One that this
 * record does not hold is the first that is known.
 */
export const firstsOf = (history: readonly EntryModel[]): ((hash: string) => readonly string[]) => {
  const named = namedBy(history)
  const earlier = earlierOf(history)
  return (hash) => earlier(hash).filter((before) => (named.get(before) ?? []).length === 0)
}

/** All entries that an entry's corrections go back to, the first ones and those between, by hash. */
export const earlierOf = (history: readonly EntryModel[]): ((hash: string) => readonly string[]) => {
  const named = namedBy(history)
  return (hash) => {
    const reached = new Set<string>(named.get(hash))
    for (const before of reached) for (const further of named.get(before) ?? []) reached.add(further)
    return [...reached]
  }
}

const namedBy = (history: readonly EntryModel[]): ReadonlyMap<string, readonly string[]> =>
  new Map(history.map((entry) => [entry.entry, entry.corrects ?? []]))

export const changesOf = (history: readonly EntryModel[]): ChangeModel[] =>
  history.flatMap(({ entry, kind, corrects }) =>
    corrects
      ? [{ entry, is: kind === 'entry.withdrawn' ? 'withdrawal' : 'correction', names: corrects }]
      : [],
  )
