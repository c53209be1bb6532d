import { readLocalTime } from '../../time.ts'
import { compareMeasures, type Length } from '../../trade/measure.ts'
import { isSentBack } from '../sent-back.ts'
import type { JobView, LoadView } from '../view.ts'
import { entered } from './finding.ts'

export const instant = (at: string): number => readLocalTime(at) ?? 0

/** A planned part with its thickness and the entry that plans it. */
export type PlannedPart = { readonly part: string; readonly thickness: Length; readonly hash: string }

export const plannedParts = (job: JobView): PlannedPart[] =>
  job.placements.flatMap(({ hash, value }) =>
    value.parts.flatMap(({ part, thickness: said }) => {
      const thickness = entered(said)
      return thickness ? [{ part, thickness, hash }] : []
    }),
  )

/** Parts that a load is said to fill; undefined where nobody said, so that it may be any. */
export const partsOf = (load: LoadView): ReadonlySet<string> | undefined => {
  const all = load.placed.flatMap(({ value }) => value.places.map(({ part }) => part))
  return all.length > 0 ? new Set(all) : undefined
}

/** Said of one of these parts, or of no part in particular. */
export const isAbout = (
  parts: ReadonlySet<string> | undefined,
  said: readonly string[] | undefined,
): boolean => parts === undefined || said === undefined || said.some((part) => parts.has(part))

/** The thinnest of the parts that a load fills, or of all that are planned: what a table by section goes by. */
export const thinnest = (job: JobView, parts: ReadonlySet<string> | undefined): PlannedPart | undefined =>
  plannedParts(job)
    .filter(({ part }) => parts === undefined || parts.has(part))
    .reduce<PlannedPart | undefined>(
      (least, one) => (least && compareMeasures(least.thickness, one.thickness) <= 0 ? least : one),
      undefined,
    )

export const loadsTaken = (job: JobView): LoadView[] => job.loads.filter((load) => !isSentBack(load))

/** When the first concrete went into the forms, ms; undefined where no start is recorded. */
export const firstConcrete = (loads: readonly LoadView[]): number | undefined => {
  const all = loads.flatMap((load) => load.started.map((s) => instant(s.value)))
  return all.length > 0 ? Math.min(...all) : undefined
}
