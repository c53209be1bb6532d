import { fail, ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { ask, type Input, offRange, readAll, type TradeProblem } from './asked.ts'
import {
  ceiling,
  type Duration,
  exactly,
  type In,
  type Length,
  type Measure,
  measure,
  type Share,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** An exact sum in whole units of one currency (dollars, not cents); which currency is the caller’s to say. */
export type Amount = Measure<'one'>
/** How a sum is brought to its smallest coin; each sum names its own. Source: our choice; invoices print halves up. */
export type Rounding = 'half-up' | 'half-even' | 'none'
export const ROUNDING: Rounding = 'half-up'

/**
 * A sum to so many digits after the point (two for dollars, by ISO 4217). Units: one currency → the same.
 * Fails: never. Source: our choice of halves; ISO 4217 for the digits.
 */
export const roundAmount = (sum: Ratio, rounding: Rounding = ROUNDING, digits = 2): Amount => {
  if (rounding === 'none') return measure(sum, 'one')
  const scale = 10n ** BigInt(digits)
  const size = sum.n < 0n ? -sum.n : sum.n
  const doubled = size * scale * 2n
  const half = doubled + sum.d
  const up = half / (sum.d * 2n)
  // A half exactly: to the even neighbour where that was asked for.
  const coins = rounding === 'half-even' && half % (sum.d * 2n) === 0n && up % 2n === 1n ? up - 1n : up
  return measure(ratio(sum.n < 0n ? -coins : coins, scale), 'one')
}

/** Minutes that cost nothing: so many for each yard, or one sum; a supplier may have both, by the size of the load. */
export type FreeTime =
  | { readonly is: 'per-yard'; readonly each: In<'time-per-concrete'> }
  | { readonly is: 'flat'; readonly minutes: Duration }
  | {
      readonly is: 'by-size'
      readonly smallUpTo: Volume
      readonly each: In<'time-per-concrete'>
      readonly flatAbove: Duration
    }

/** What time beyond costs. A supplier’s terms seldom say how a part of a unit is billed, so it is a choice that is kept. */
export type TimeRate = {
  readonly each: Duration
  readonly charge: Amount
  readonly part: 'pro-rated' | 'started-unit'
}

export type Unloading = {
  readonly free: Measure<'min'>
  /** Beyond the free time; zero where there was none. */
  readonly beyond: Measure<'min'>
  readonly charge: Amount
}

/**
 * What a truck’s time on site costs. Units: any volume and times, a sum → minutes and a sum.
 * Fails: `missing`, `out-of-range`. Source: the supplier’s own terms; published ones have 6 min/yd³ then $1 a minute,
 * 7 min/yd³ then $130 an hour, or 15 min/yd³ up to 4 yd³ and 60 min above, then $30 for each started 15 min.
 */
export const unloadingCharge = (of: {
  readonly load: Input<Volume>
  readonly onSite: Input<Duration>
  readonly free: FreeTime
  readonly rate: TimeRate
  readonly rounding?: Rounding
}): Result<Unloading, TradeProblem> => {
  const read = readAll({
    load: ask(of.load, RANGES.someVolume),
    onSite: ask(of.onSite, RANGES.minutes),
    each: ask(of.rate.each, RANGES.billingUnit),
    charge: ask(of.rate.charge, RANGES.money),
  })
  if (!read.ok) return read
  const free = freeMinutes(toUnit(read.value.load, 'yd3'), of.free)
  if (!free.ok) return free
  const late = minus(toUnit(read.value.onSite, 'min'), free.value)
  const beyond = measure(compare(late, ZERO) > 0 ? late : ZERO, 'min')
  const units = over(beyond, toUnit(read.value.each, 'min'))
  const billed = of.rate.part === 'started-unit' ? ratio(ceiling(units)) : units
  return ok({ free: free.value, beyond, charge: roundAmount(times(billed, read.value.charge), of.rounding) })
}

/**
 * The free minutes of a load. Units: yd³, any times → minutes. Fails: `missing`, `out-of-range`.
 * Source: the supplier’s own terms.
 */
export const freeMinutes = (load: Measure<'yd3'>, free: FreeTime): Result<Measure<'min'>, TradeProblem> => {
  if (free.is === 'flat') {
    const off = offRange('/free/minutes', free.minutes, RANGES.minutes)
    return off ?? ok(toUnit(free.minutes, 'min'))
  }
  const off = offRange('/free/each', free.each, RANGES.minutesPerYard)
  if (off) return off
  if (free.is === 'by-size' && compare(load, toUnit(free.smallUpTo, 'yd3')) > 0)
    return offRange('/free/flatAbove', free.flatAbove, RANGES.minutes) ?? ok(toUnit(free.flatAbove, 'min'))
  return ok(measure(times(load, toUnit(free.each, 'min/yd3')), 'min'))
}

/** What a load below the supplier’s least costs: one fee, or so much for each yard that is missing. */
export type ShortLoadFee =
  | { readonly is: 'flat'; readonly fee: Amount }
  | { readonly is: 'per-missing-yard'; readonly fee: Amount }

export type LoadCharge = { readonly concrete: Amount; readonly shortLoad: Amount; readonly total: Amount }

/**
 * A load’s concrete, and what it costs to be short. A fee that the quote waives (a balance on the same day) is zero.
 * Units: any volumes, sums → sums. Fails: `missing`, `out-of-range`. Source: the supplier’s own terms; “per missing
 * yard” is common practice, no source.
 */
export const loadCharge = (of: {
  readonly load: Input<Volume>
  readonly pricePerYard: Input<Amount>
  readonly least: Input<Volume>
  readonly fee: ShortLoadFee
  readonly waived?: boolean
  readonly rounding?: Rounding
}): Result<LoadCharge, TradeProblem> => {
  const read = readAll({
    load: ask(of.load, RANGES.someVolume),
    pricePerYard: ask(of.pricePerYard, RANGES.money),
    least: ask(of.least, RANGES.volume),
    fee: ask(of.fee.fee, RANGES.money),
  })
  if (!read.ok) return read
  const load = toUnit(read.value.load, 'yd3')
  const missing = minus(toUnit(read.value.least, 'yd3'), load)
  const concrete = roundAmount(times(load, read.value.pricePerYard), of.rounding)
  const isShort = compare(missing, ZERO) > 0 && of.waived !== true
  const fee = of.fee.is === 'flat' ? read.value.fee : times(missing, read.value.fee)
  const shortLoad = roundAmount(isShort ? fee : ZERO, of.rounding)
  return ok({ concrete, shortLoad, total: measure(plus(concrete, shortLoad), 'one') })
}

/** A surcharge and the days on which the quote has it; both ends count. Undefined: no end on that side. */
export type Surcharge = {
  readonly each: 'load' | 'yard'
  readonly amount: Amount
  /** Calendar days, `2026-04-15`. */
  readonly from?: string
  readonly until?: string
}

/**
 * A dated surcharge of one load; zero outside its days. Units: any volume, a calendar day, sums → a sum.
 * Fails: `missing`, `out-of-range`; `contradiction` where a day is none (30 February). Source: the supplier’s own terms.
 */
export const surcharge = (of: {
  readonly load: Input<Volume>
  readonly on: Input<string>
  readonly terms: Surcharge
  readonly rounding?: Rounding
}): Result<Amount, TradeProblem> => {
  const read = readAll({ load: ask(of.load, RANGES.someVolume), amount: ask(of.terms.amount, RANGES.money) })
  if (!read.ok) return read
  const { from, until, each } = of.terms
  if (of.on === undefined) return fail('missing', '/on')
  for (const [name, day] of Object.entries({ on: of.on, from, until }))
    if (day !== undefined && !isDay(day)) return fail('contradiction', `/${name}`, { given: day })
  const applies = (from === undefined || of.on >= from) && (until === undefined || of.on <= until)
  const whole = each === 'load' ? read.value.amount : times(toUnit(read.value.load, 'yd3'), read.value.amount)
  return ok(roundAmount(applies ? whole : ZERO, of.rounding))
}

/** A calendar day that exists; leap years by the Gregorian rule. */
const isDay = (text: string): boolean => {
  const match = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text)
  if (!match) return false
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number]
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]
  return days !== undefined && day >= 1 && day <= days
}

/**
 * Tax on what is taxable. Units: a sum, per cent → a sum. Fails: `missing`, `out-of-range`.
 * Source: the state’s rate, and its rule on what is taxable: ask an accountant.
 */
export const taxOn = (of: {
  readonly taxable: Input<Amount>
  readonly rate: Input<Share>
  readonly rounding?: Rounding
}): Result<Amount, TradeProblem> => {
  const read = readAll({ taxable: ask(of.taxable, RANGES.money), rate: ask(of.rate, RANGES.taxRate) })
  if (!read.ok) return read
  const part = over(toUnit(read.value.rate, 'pct'), ratio(100n))
  return ok(roundAmount(times(read.value.taxable, part), of.rounding))
}

/**
 * Delivery by distance, the first miles free. Units: any lengths, a sum a mile → a sum. Fails: `missing`, `out-of-range`.
 * Source: the supplier’s own terms; a school example has 10 miles free, then $1 a mile.
 */
export const deliveryCharge = (of: {
  readonly distance: Input<Length>
  readonly free: Input<Length>
  readonly perMile: Input<Amount>
  readonly rounding?: Rounding
}): Result<Amount, TradeProblem> => {
  const read = readAll({
    distance: ask(of.distance, RANGES.distance),
    free: ask(of.free, RANGES.distance),
    perMile: ask(of.perMile, RANGES.money),
  })
  if (!read.ok) return read
  const beyond = minus(toUnit(read.value.distance, 'mi'), toUnit(read.value.free, 'mi'))
  return ok(roundAmount(compare(beyond, ZERO) > 0 ? times(beyond, read.value.perMile) : ZERO, of.rounding))
}

/**
 * The sum of amounts. Units: one currency. Fails: never. Source: arithmetic.
 */
export const sumAmounts = (all: readonly Amount[]): Amount => measure(sum(all), 'one')

/** Published terms of a supplier of short loads, as an example. Source: supplier C’s published terms. */
export const SHORT_LOAD_TERMS = {
  smallUpTo: exactly('4', 'yd3'),
  freePerYard: exactly('15', 'min/yd3'),
  freeAbove: exactly('60', 'min'),
  block: exactly('15', 'min'),
  blockCharge: exactly('30', 'one'),
  mostOnSite: exactly('1.5', 'h'),
} as const

const ZERO = ratio(0n)
