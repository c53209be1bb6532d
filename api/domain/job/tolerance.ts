import type { BodyOf } from '../entry/registry.ts'
import { compare, inUnit, minus, plus, type Quantity, type Ratio, ratio } from '../units.ts'
import type { Verdict } from './limit.ts'
import type { JobView, LoadView } from './view.ts'

/** A reading beside what was asked for. The ends are in the reading's plain unit: inches of slump, per cent of air. */
export type ToleranceCheck = {
  readonly of: 'slump' | 'air'
  /** Hash of the reading's entry. */
  readonly reading: string
  readonly value: Ratio
  /** A slump that was judged by eye is no measurement: its verdict is never printed without saying so. */
  readonly byEye: boolean
  readonly from: Ratio | undefined
  readonly to: Ratio | undefined
  /** Hash of the entry that states the ends, and whose paper it is; undefined where none does. */
  readonly source: string | undefined
  readonly statedBy: 'order' | 'ticket' | undefined
  readonly verdict: Verdict
}

type Asked = Pick<BodyOf<'mix.ordered'>, 'slump' | 'air'>
type Ends = { readonly from: Ratio | undefined; readonly to: Ratio | undefined }
type Stated = Ends & Pick<ToleranceCheck, 'source' | 'statedBy'>

/**
 * Every slump and air reading of a load, air less its stated aggregate correction, against the order, or against the ticket where the order says nothing. Without a
 * stated tolerance there is no verdict: the standard's own defaults differ by edition and are not assumed here.
 */
export const toleranceChecks = (load: LoadView, mix: JobView['mix']): ToleranceCheck[] => [
  ...load.slump.flatMap(({ value: { slump, how }, hash }) =>
    slump.is === 'given'
      ? checksOf(
          { of: 'slump', reading: hash, byEye: how === 'by-eye' },
          valueIn(slump, 'in'),
          stated(load, mix, slumpEnds),
        )
      : [],
  ),
  ...load.air.flatMap(({ value: { air, aggregateCorrection }, hash }) => {
    if (air.is !== 'given') return []
    const meter = valueIn(air, 'pct')
    const off = aggregateCorrection && valueIn(aggregateCorrection, 'pct')
    return checksOf(
      { of: 'air', reading: hash, byEye: false },
      meter && off ? minus(meter, off) : meter,
      stated(load, mix, airEnds),
    )
  }),
]

const NOT_STATED = { from: undefined, to: undefined, source: undefined, statedBy: undefined }

const checksOf = (
  reading: Pick<ToleranceCheck, 'of' | 'reading' | 'byEye'>,
  value: Ratio | undefined,
  ends: readonly Stated[],
): ToleranceCheck[] => {
  if (value === undefined) return []
  if (ends.length === 0) return [{ ...reading, value, ...NOT_STATED, verdict: 'limit-not-stated' }]
  return ends.map((end) => ({
    ...reading,
    value,
    ...end,
    verdict: isWithin(value, end) ? 'inside' : 'outside',
  }))
}

const isWithin = (value: Ratio, { from, to }: Ends): boolean =>
  (from === undefined || compare(value, from) >= 0) && (to === undefined || compare(value, to) <= 0)

const stated = (
  load: LoadView,
  mix: JobView['mix'],
  endsOf: (asked: Asked) => Ends | undefined,
): Stated[] => {
  const ends = (
    all: readonly { readonly hash: string; readonly value: Asked }[],
    statedBy: 'order' | 'ticket',
  ) =>
    all.flatMap(({ hash, value }): Stated[] => {
      const found = endsOf(value)
      return found ? [{ ...found, source: hash, statedBy }] : []
    })
  const ordered = ends(mix, 'order')
  return ordered.length > 0 ? ordered : ends(load.ticket, 'ticket')
}

const slumpEnds = ({ slump }: Asked): Ends | undefined => {
  if (slump?.is === 'most') return { from: undefined, to: valueIn(slump.most, 'in') }
  if (slump?.is !== 'target' || !slump.tolerance) return undefined
  const target = valueIn(slump.target, 'in')
  const tolerance = valueIn(slump.tolerance, 'in')
  return target && tolerance && { from: minus(target, tolerance), to: plus(target, tolerance) }
}

const airEnds = ({ air }: Asked): Ends | undefined => {
  if (air?.is !== 'given' || (!air.from && !air.to)) return undefined
  return { from: air.from && valueIn(air.from, 'pct'), to: air.to && valueIn(air.to, 'pct') }
}

const valueIn = (quantity: Quantity, unit: 'in' | 'pct'): Ratio | undefined => {
  const value = inUnit(quantity, unit)
  return value.ok && compare(value.value, ratio(0n)) >= 0 ? value.value : undefined
}
