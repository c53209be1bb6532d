import { minutesBetween, readLocalTime } from '../time.ts'
import type { LoadView } from './view.ts'

/** From the end of one load's discharge to the start of the next that began after it: how long an edge stood. */
export type EdgeGap = { readonly from: string; readonly to: string; readonly minutes: number }

/** Between loads that follow each other by their starts; only where each has the one time that it needs. */
export const edgeGaps = (loads: readonly LoadView[]): EdgeGap[] => {
  const started = loads
    .filter((load) => load.started.length === 1)
    .sort((a, b) => (readLocalTime(a.started[0]!.value) ?? 0) - (readLocalTime(b.started[0]!.value) ?? 0))
  return started.slice(1).flatMap((load, i) => {
    const before = started[i]!
    const minutes =
      before.ended.length === 1 ? minutesBetween(before.ended[0]!.value, load.started[0]!.value) : undefined
    return minutes === undefined ? [] : [{ from: before.id, to: load.id, minutes }]
  })
}
