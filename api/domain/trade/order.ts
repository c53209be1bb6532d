import { fail, ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { ask, type Input, offCount, offRange, readAll, type TradeProblem } from './asked.ts'
import {
  type Area,
  ceiling,
  exactly,
  type In,
  type Length,
  type Measure,
  measure,
  roundUpTo,
  type Share,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** What is ordered above the formed volume, by whose rule, in per cent: least and most that the rule names. */
export type AllowanceRule = 'cip-8' | 'estimator' | 'beall' | 'army'
export type WasteRange = {
  readonly least: Measure<'pct'>
  readonly most: Measure<'pct'>
  readonly source: SourceId
}

/** What an allowance is for. Source: NRMCA CIP 8. */
export const ALLOWANCE_IS_FOR = [
  'uneven base',
  'forms that give',
  'over-excavation',
  'spillage',
  'concrete left in the truck',
  'settling and shrinking (about 2 %)',
] as const

const pct = (text: string) => exactly(text, 'pct')
const ARMY_BREAK = exactly('200', 'yd3')

/**
 * The allowance that a rule names for a volume. Units: any volume → per cent. Fails: `missing`, `out-of-range`.
 * Source: NRMCA CIP 8 (4–10 %); National Home Improvement Estimator 2018 p. 42 (5 %); Beall 2004 §3.1.1 (5–10 %); US
 * Army EN5466A (10 % up to 200 yd³; 5 % above that from memory).
 */
export const allowanceBy = (
  rule: AllowanceRule,
  net: Input<Volume>,
): Result<WasteRange, 'missing' | 'out-of-range'> => {
  switch (rule) {
    case 'cip-8':
      return ok({ least: pct('4'), most: pct('10'), source: 'cip-8' })
    case 'estimator':
      return ok({ least: pct('5'), most: pct('5'), source: 'estimator' })
    case 'beall':
      return ok({ least: pct('5'), most: pct('10'), source: 'beall' })
    case 'army': {
      const off = offRange('/net', net, RANGES.someVolume)
      if (off || !net) return off ?? fail('missing', '/net')
      const small = compare(toUnit(net, 'yd3'), ARMY_BREAK) <= 0
      const one = pct(small ? '10' : '5')
      return ok({ least: one, most: one, source: small ? 'en5466' : 'en5466-over' })
    }
  }
}

export type Order = {
  readonly net: Measure<'yd3'>
  readonly withAllowance: Measure<'yd3'>
  /** Up to the supplier’s next step: an order is never rounded down. */
  readonly order: Measure<'yd3'>
}

/**
 * What to order for a formed volume. Units: any volumes, per cent → yd³. Fails: `missing`, `out-of-range`.
 * Source: NRMCA CIP 8 (allowance); Beall 2004 §3.1.1 (rounding up to the supplier’s step).
 */
export const orderVolume = (of: {
  readonly net: Input<Volume>
  readonly waste: Input<Share>
  readonly step: Input<Volume>
}): Result<Order, TradeProblem> => {
  const read = readAll({
    net: ask(of.net, RANGES.someVolume),
    waste: ask(of.waste, RANGES.waste),
    step: ask(of.step, RANGES.orderStep),
  })
  if (!read.ok) return read
  const net = toUnit(read.value.net, 'yd3')
  const factor = over(plus(ratio(100n), toUnit(read.value.waste, 'pct')), ratio(100n))
  const withAllowance = measure(times(net, factor), 'yd3')
  return ok({ net, withAllowance, order: roundUpTo(withAllowance, toUnit(read.value.step, 'yd3')) })
}

export type Trucks = {
  readonly count: number
  /** Full ones first; the last takes the rest. */
  readonly loads: readonly Measure<'yd3'>[]
  /** From one truck’s start to the next one’s, so that a crew never waits and no truck does. */
  readonly spacing: Measure<'min'>
  readonly placing: Measure<'min'>
}

/**
 * How many trucks, and how far apart, from what a crew places in an hour. Units: any volumes and rate → minutes.
 * Fails: `missing`, `out-of-range`. Source: load ÷ placing rate (arithmetic; common practice, no source).
 */
export const trucks = (of: {
  readonly order: Input<Volume>
  readonly load: Input<Volume>
  readonly rate: Input<In<'placing-rate'>>
}): Result<Trucks, TradeProblem> => {
  const read = readAll({
    order: ask(of.order, RANGES.someVolume),
    load: ask(of.load, RANGES.load),
    rate: ask(of.rate, RANGES.placingRate),
  })
  if (!read.ok) return read
  const order = toUnit(read.value.order, 'yd3')
  const load = toUnit(read.value.load, 'yd3')
  const rate = toUnit(read.value.rate, 'yd3/h')
  const count = Number(ceiling(over(order, load)))
  if (count > 1_000)
    return fail('out-of-range', '/order', { given: `${count} trucks`, least: 1, most: '1000 trucks' })
  const rest = minus(order, times(load, ratio(BigInt(count - 1))))
  const minutes = (volume: Ratio) => measure(times(over(volume, rate), ratio(60n)), 'min')
  return ok({
    count,
    loads: [...Array.from({ length: count - 1 }, () => load), measure(rest, 'yd3')],
    spacing: minutes(load),
    placing: minutes(order),
  })
}

/** A part that is not full yet: its area, and the depth that is still to fill, by the tape. */
export type PartLeft = {
  readonly area: Area
  readonly depth: Length
  /** How far the depth may be off either way, since a base is uneven between two places. */
  readonly error: Length
}

export type Balance = {
  readonly needed: Measure<'yd3'>
  readonly least: Measure<'yd3'>
  readonly most: Measure<'yd3'>
  /** Up to the step, for the most that may be needed; zero where what is on its way covers even that. */
  readonly order: Measure<'yd3'>
}

/**
 * What is still to be ordered, by what is measured to be left, less what is on its way. As parts fill, their error goes
 * with them and the range narrows.
 * Units: any areas, lengths and volumes → yd³. Fails: `missing`, `out-of-range`.
 * Source: Σ area × depth, depth ± error (arithmetic).
 */
export const balanceToOrder = (of: {
  readonly left: Input<readonly PartLeft[]>
  readonly onTheWay: Input<Volume>
  readonly step: Input<Volume>
}): Result<Balance, TradeProblem> => {
  const off = offCount('/left', of.left, 0, 200)
  if (off || !of.left) return off ?? fail('missing', '/left')
  for (const [i, part] of of.left.entries()) {
    const odd =
      offRange(`/left/${i}/area`, part.area, RANGES.area) ??
      offRange(`/left/${i}/depth`, part.depth, RANGES.thicknessOrNone) ??
      offRange(`/left/${i}/error`, part.error, RANGES.depthError)
    if (odd) return odd
  }
  const read = readAll({
    onTheWay: ask(of.onTheWay, RANGES.volume),
    step: ask(of.step, RANGES.orderStep),
  })
  if (!read.ok) return read
  const coming = toUnit(read.value.onTheWay, 'yd3')
  const total = (sign: bigint) => {
    const parts = of.left!.map((part) => {
      const depth = plus(toUnit(part.depth, 'in'), times(ratio(sign), toUnit(part.error, 'in')))
      return times(toUnit(part.area, 'ft2'), over(notBelowZero(depth), ratio(324n)))
    })
    return measure(notBelowZero(minus(sum(parts), coming)), 'yd3')
  }
  const most = total(1n)
  return ok({
    needed: total(0n),
    least: total(-1n),
    most,
    order: roundUpTo(most, toUnit(read.value.step, 'yd3')),
  })
}

/** What an error of thickness takes of an order. */
export type Shortage = { readonly share: Measure<'pct'>; readonly volume: Measure<'yd3'> }

/**
 * What a slab that is so much too thick takes more than was ordered for it. Units: any lengths and volume → per cent
 * and yd³. Fails: `missing`, `out-of-range`. Source: NRMCA CIP 8: ⅛ in on 4 in is about 3 %.
 */
export const shortageBy = (of: {
  readonly thickness: Input<Length>
  readonly error: Input<Length>
  readonly order: Input<Volume>
}): Result<Shortage, TradeProblem> => {
  const read = readAll({
    thickness: ask(of.thickness, RANGES.thickness),
    error: ask(of.error, RANGES.depthError),
    order: ask(of.order, RANGES.someVolume),
  })
  if (!read.ok) return read
  const part = over(toUnit(read.value.error, 'in'), toUnit(read.value.thickness, 'in'))
  return ok({
    share: measure(times(part, ratio(100n)), 'pct'),
    volume: measure(times(part, toUnit(read.value.order, 'yd3')), 'yd3'),
  })
}

/** Hardened concrete takes about this part of its fresh volume. Source: NRMCA CIP 8. */
export const HARDENED_SHARE = exactly('98', 'pct')

/**
 * About what a fresh volume comes to when hard. Units: any volume → yd³. Fails: `missing`, `out-of-range`.
 * Source: NRMCA CIP 8, about 2 % less.
 */
export const hardenedVolume = (of: {
  readonly fresh: Input<Volume>
}): Result<Measure<'yd3'>, TradeProblem> => {
  const read = readAll({ fresh: ask(of.fresh, RANGES.someVolume) })
  if (!read.ok) return read
  return ok(measure(over(times(toUnit(read.value.fresh, 'yd3'), HARDENED_SHARE), ratio(100n)), 'yd3'))
}

const ZERO = ratio(0n)
const notBelowZero = (r: Ratio): Ratio => (compare(r, ZERO) < 0 ? ZERO : r)
