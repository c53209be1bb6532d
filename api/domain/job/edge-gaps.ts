import { minutesBetween, readLocalTime } from '../time.ts'
import { batchingTimes } from './limit.ts'
import { isSentBack } from './sent-back.ts'
import type { LoadView } from './view.ts'

/** From the end of one load's discharge to the start of the next that went to the same place: how long an edge stood. */
export type EdgeGap = { readonly from: string; readonly to: string; readonly minutes: number }

/**
 * Between loads that follow one another in a part, by their starts; a load of which nobody said where it went may have gone
 * to any. Only where each has the one time that it needs, and no other load may have gone in between: an edge that was kept
 * alive by a load with no times is not known to have stood. Loads that overlap leave no edge standing.
 */
export const edgeGaps = (loads: readonly LoadView[]): EdgeGap[] => {
  const poured = loads.filter((load) => !isSentBack(load))
  const parts = new Set(poured.flatMap(partsOf))
  const places = parts.size === 0 ? [undefined] : [...parts].sort()
  const found = places.flatMap((part) => gapsIn(poured.filter((load) => mayBeIn(load, part))))
  return found
    .filter((gap, i) => found.findIndex(({ from, to }) => from === gap.from && to === gap.to) === i)
    .sort((a, b) => startOf(loads, a.to) - startOf(loads, b.to))
}

const partsOf = (load: LoadView): string[] =>
  load.placed.flatMap((s) => s.value.places.map(({ part }) => part))

const mayBeIn = (load: LoadView, part: string | undefined): boolean =>
  part === undefined || load.placed.length === 0 || partsOf(load).includes(part)

const startOf = (loads: readonly LoadView[], id: string): number =>
  only(loads.find((load) => load.id === id)?.started ?? []) ?? 0

const gapsIn = (loads: readonly LoadView[]): EdgeGap[] =>
  loads.flatMap((load): EdgeGap[] => {
    const start = only(load.started)
    if (start === undefined) return []
    const others = loads.filter((other) => other !== load)
    const before = others.filter((other) => (only(other.started) ?? Number.POSITIVE_INFINITY) < start)
    const ends = before.map((other) => ({ other, end: only(other.ended) }))
    const last = ends.reduce<(typeof ends)[number] | undefined>(
      (a, b) =>
        a === undefined || (b.end ?? Number.POSITIVE_INFINITY) > (a.end ?? Number.POSITIVE_INFINITY) ? b : a,
      undefined,
    )
    if (last?.end === undefined || last.end > start) return []
    const end = last.end
    if (others.some((other) => !before.includes(other) && mayHaveGoneBetween(other, end, start))) return []
    const minutes = minutesBetween(last.other.ended[0]!.value, load.started[0]!.value)
    return minutes === undefined ? [] : [{ from: last.other.id, to: load.id, minutes }]
  })

type Times = readonly { readonly value: string }[]
const instants = (times: Times): number[] => times.map((s) => readLocalTime(s.value) ?? 0)
/** The one time that is told, whoever told it: several of one printed minute are one. */
const only = (times: Times): number | undefined => {
  const all = instants(times)
  return new Set(all.map((ms) => Math.floor(ms / 60_000))).size === 1 ? Math.min(...all) : undefined
}

/** Its earliest possible start lies before the gap's end, and its latest possible end after the gap's beginning. */
const mayHaveGoneBetween = (load: LoadView, from: number, to: number): boolean => {
  const batched = batchingTimes(load.ticket).map((value) => ({ value }))
  const first = [load.started, load.arrived, batched].find((times) => times.length > 0) ?? []
  const last = [load.ended, load.left].find((times) => times.length > 0) ?? []
  const isAfter = first.length > 0 && Math.min(...instants(first)) >= to
  const isBefore = last.length > 0 && Math.max(...instants(last)) <= from
  return !isAfter && !isBefore
}
