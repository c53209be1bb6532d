import type { Entry, EntryOf } from '../entry/envelope.ts'
import type { HashedEntry, ReadEntry } from '../entry/read.ts'
import { isUnread } from '../entry/read.ts'
import type { Kind } from '../entry/registry.ts'
import { readLocalTime } from '../time.ts'

/** An entry with what its receiver knows of it; a phone's own entries have no receipt yet. */
export type LoggedEntry = ReadEntry & { readonly receivedAt?: number }
export type KnownEntry = HashedEntry & { readonly receivedAt?: number }

/**
 * Which entries stand: those that no standing entry corrects (SPEC L7). A function of the set alone: order and repeats
 * make no difference, since hashes can't name each other in a circle.
 */
export const standingEntries = (
  entries: readonly KnownEntry[],
): { all: KnownEntry[]; stands: ReadonlySet<string> } => {
  const known = new Map<string, KnownEntry>()
  // Of an entry held twice, as one's own and as received, the one that knows its receipt.
  for (const e of entries) if (known.get(e.hash)?.receivedAt === undefined) known.set(e.hash, e)
  const all = [...known.values()].sort(inOrder)
  const correctedBy = new Map<string, string[]>()
  for (const { hash, entry } of all)
    for (const target of entry.corrects ?? [])
      correctedBy.set(target, [...(correctedBy.get(target) ?? []), hash])
  const verdicts = new Map<string, boolean>()
  const stands = (first: string): boolean => {
    // Without recursion: a chain of corrections may be long.
    const stack = [first]
    while (stack.length > 0) {
      const hash = stack.at(-1)!
      const by = correctedBy.get(hash) ?? []
      const open = by.filter((b) => !verdicts.has(b))
      if (open.length > 0) stack.push(...open)
      else {
        verdicts.set(hash, !by.some((b) => verdicts.get(b)))
        stack.pop()
      }
    }
    return verdicts.get(first)!
  }
  return { all, stands: new Set(all.filter((e) => stands(e.hash)).map((e) => e.hash)) }
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

export const ofKind = <K extends Kind>(
  entries: readonly KnownEntry[],
  kind: K,
): (KnownEntry & { entry: EntryOf<K> })[] =>
  entries.filter((e): e is KnownEntry & { entry: EntryOf<K> } => e.entry.kind === kind)
