import type { Entry, EntryOf } from '../entry/envelope.ts'
import type { HashedEntry, ReadEntry } from '../entry/read.ts'
import { isUnread } from '../entry/read.ts'
import type { Kind } from '../entry/registry.ts'
import { readLocalTime } from '../time.ts'

/** An entry with what its receiver knows of it; a phone's own entries have no receipt yet. */
export type LoggedEntry = ReadEntry & { readonly receivedAt?: number }
export type KnownEntry = HashedEntry & { readonly receivedAt?: number }

/**
 * Which entries are in force, and which of those stand (SPEC L7): an entry stands if no entry in force names it. A
 * correction that is itself corrected stays in force, so what it took down stays down; one that is withdrawn does not.
 * A function of the set alone: order and repeats make no difference, since hashes can't name each other in a circle.
 */
export const standingEntries = (
  entries: readonly KnownEntry[],
): { all: KnownEntry[]; inForce: ReadonlySet<string>; stands: ReadonlySet<string> } => {
  const known = new Map<string, KnownEntry>()
  // Of an entry held twice, as one's own and as received, the one that knows its receipt; of two receipts the first.
  for (const e of entries) if (receipt(e) <= receipt(known.get(e.hash))) known.set(e.hash, e)
  const all = [...known.values()].sort(inOrder)
  const inForce = entriesInForce(all)
  const down = new Set(all.filter((e) => inForce.has(e.hash)).flatMap((e) => e.entry.corrects ?? []))
  return { all, inForce, stands: new Set(all.map((e) => e.hash).filter((hash) => !down.has(hash))) }
}

const receipt = (e: KnownEntry | undefined): number => e?.receivedAt ?? Number.POSITIVE_INFINITY

/** Those that no withdrawal in force names. */
const entriesInForce = (all: readonly KnownEntry[]): ReadonlySet<string> => {
  const withdrawnBy = new Map<string, string[]>()
  for (const { hash, entry } of ofKind(all, 'entry.withdrawn'))
    for (const target of entry.corrects ?? []) {
      const by = withdrawnBy.get(target)
      if (by) by.push(hash)
      else withdrawnBy.set(target, [hash])
    }
  const verdicts = new Map<string, boolean>()
  const isInForce = (first: string): boolean => {
    // Without recursion: a chain of withdrawals may be long.
    const stack = [first]
    while (stack.length > 0) {
      const hash = stack.at(-1)!
      const by = withdrawnBy.get(hash) ?? []
      const open = by.filter((b) => !verdicts.has(b))
      if (open.length > 0) stack.push(...open)
      else {
        verdicts.set(hash, !by.some((b) => verdicts.get(b)))
        stack.pop()
      }
    }
    return verdicts.get(first)!
  }
  return new Set(all.map((e) => e.hash).filter(isInForce))
}

export const knownEntries = (entries: readonly LoggedEntry[]): KnownEntry[] =>
  entries.filter((e): e is KnownEntry => !isUnread(e))

/** By when it happened, as claimed; equal times by hash, so that the order is one and the same everywhere. */
export const inOrder = (a: KnownEntry, b: KnownEntry): number =>
  instant(a.entry) - instant(b.entry) || (a.hash < b.hash ? -1 : a.hash > b.hash ? 1 : 0)

const instant = (entry: Entry): number => readLocalTime(entry.occurredAt) ?? 0

/** Late: recorded more than 10 minutes after it occurred. Source: our choice; the delay is printed either way. */
export const LATE_AFTER_MINUTES = 10

export const recordingDelayMinutes = (entry: Entry): number =>
  Math.floor(((readLocalTime(entry.recordedAt) ?? 0) - instant(entry)) / 60_000)

export const isLate = (entry: Entry): boolean =>
  (readLocalTime(entry.recordedAt) ?? 0) - instant(entry) > LATE_AFTER_MINUTES * 60_000

/** Ahead: occurred, as claimed, in a later minute than it was recorded. */
export const isAhead = (entry: Entry): boolean => isAheadBy(recordingDelayMinutes(entry))

/** The same of whole minutes from occurring to recording: two times of one minute may differ by one below zero. */
export const isAheadBy = (delayMinutes: number): boolean => delayMinutes < -1

export const ofKind = <K extends Kind>(
  entries: readonly KnownEntry[],
  kind: K,
): (KnownEntry & { entry: EntryOf<K> })[] =>
  entries.filter((e): e is KnownEntry & { entry: EntryOf<K> } => e.entry.kind === kind)
