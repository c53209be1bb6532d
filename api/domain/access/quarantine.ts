import type { By } from '../entry/envelope.ts'
import type { HashedEntry } from '../entry/read.ts'

/** An entry that a withdrawn device sent, and what became of it. */
export type SetAside = {
  readonly device: string
  /** `refused`: an owner admitted it, and the server could not take it; its code is in the company's thread. */
  readonly is: 'waiting' | 'admitted' | 'declined' | 'refused'
  /** The newest decision on it. */
  readonly decided?: { readonly by: By; readonly at: string }
}

/** By the entry's hash, in the order in which they were set aside. */
export type Quarantine = ReadonlyMap<string, SetAside>

export const NO_QUARANTINE: Quarantine = new Map()

/**
 * What was set aside and decided (SPEC L56), from the company's own thread in log order. What was declined may be admitted
 * later; what was admitted is in the log and stays there.
 */
export const foldQuarantine = (
  entries: readonly HashedEntry[],
  from: Quarantine = NO_QUARANTINE,
): Quarantine => {
  const all = new Map(from)
  for (const { entry } of entries) {
    if (entry.kind === 'push.quarantined') {
      const { device, entries: hashes } = entry.body
      for (const hash of hashes) if (!all.has(hash)) all.set(hash, { device, is: 'waiting' })
    } else if (entry.kind === 'push.decided') {
      const { device, entries: hashes, verdict } = entry.body
      for (const hash of hashes) {
        const is = all.get(hash)
        if (is?.device === device && (is.is === 'waiting' || is.is === 'declined'))
          all.set(hash, { device, is: verdict, decided: { by: entry.by, at: entry.occurredAt } })
      }
    } else if (entry.kind === 'entry.refused') {
      const is = all.get(entry.body.hash)
      if (is?.is === 'admitted') all.set(entry.body.hash, { ...is, is: 'refused' })
    }
  }
  return all
}
