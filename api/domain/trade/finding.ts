import { compareMeasures, type Measure } from './measure.ts'
import type { SourceId } from './sources.ts'
import type { Like, TradeUnit } from './unit-table.ts'

/** A comparison’s outcome. Never more than the number and where it lies. */
export type Verdict = 'inside' | 'outside' | 'limit-not-stated' | 'not-recorded'

/** A limit with where it comes from: which document, which edition, which clause. */
export type Limit<U extends TradeUnit = TradeUnit> = {
  /** The least that lies inside; with `overLeast`, what must be exceeded. */
  readonly least?: Measure<U>
  /** The most that lies inside; with `underMost`, what must be stayed under. */
  readonly most?: Measure<U>
  readonly open?: 'over-least' | 'under-most' | 'both'
  readonly source: SourceId
}

/** A measured value beside one limit. A value that lies on a limit is inside it, unless the limit is an open one. */
export type Finding<U extends TradeUnit = TradeUnit> = {
  readonly of: string
  readonly value: Measure<U> | undefined
  readonly limit: Limit<U> | undefined
  readonly verdict: Verdict
}

/**
 * A value beside a limit; without a limit nothing is assumed, and without a value nothing is said.
 * Units: any of the limit’s dimension. Fails: never. Source: the limit’s own; that a limit itself lies inside is how
 * ASTM C94-98 §10.7 and ACI 318-19 §26.12.3.1 are worded.
 */
export const compareTo = <U extends TradeUnit>(
  of: string,
  value: Measure<U> | undefined,
  limit: Limit<U> | undefined,
): Finding<U> => {
  if (!limit || (!limit.least && !limit.most)) return { of, value, limit, verdict: 'limit-not-stated' }
  if (!value) return { of, value, limit, verdict: 'not-recorded' }
  const low = limit.least && compareMeasures(value as Measure, limit.least as Measure<Like<U>>)
  const high = limit.most && compareMeasures(value as Measure, limit.most as Measure<Like<U>>)
  const openLow = limit.open === 'over-least' || limit.open === 'both'
  const openHigh = limit.open === 'under-most' || limit.open === 'both'
  const off =
    (low !== undefined && (low < 0 || (openLow && low === 0))) ||
    (high !== undefined && (high > 0 || (openHigh && high === 0)))
  return { of, value, limit, verdict: off ? 'outside' : 'inside' }
}

/**
 * One outcome of several: outside where any is, inside where all are, else what is lacking.
 * Units: none. Fails: never. Source: our choice.
 */
export const overall = (findings: readonly { readonly verdict: Verdict }[]): Verdict => {
  const all = findings.map((f) => f.verdict)
  if (all.includes('outside')) return 'outside'
  if (all.length > 0 && all.every((v) => v === 'inside')) return 'inside'
  return all.includes('not-recorded') ? 'not-recorded' : 'limit-not-stated'
}
