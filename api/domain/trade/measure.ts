import { compare, minus, over, plus, type Ratio, ratio, readNumber, times } from '../units.ts'
import { type Dimension, type Like, sizeOfUnit, type TradeUnit, type UnitOf } from './unit-table.ts'

/** An exact number with its unit: as it was entered, until somebody asks for another unit of its dimension. */
export type Measure<U extends TradeUnit = TradeUnit> = Ratio & { readonly unit: U }
/** A measure in any unit of a dimension. */
export type In<D extends Dimension> = Measure<UnitOf<D>>
/** What a published formula gives that has powers or exponentials in it: a float, good to about 12 digits. */
export type Estimate<U extends TradeUnit = TradeUnit> = { readonly estimate: number; readonly unit: U }

export type Length = In<'length'>
export type Area = In<'area'>
export type Volume = In<'volume'>
export type Duration = In<'time'>
export type Temperature = In<'temperature'>
export type Share = In<'share'>
export type Mass = In<'mass'>
export type Density = In<'density'>
export type Speed = In<'speed'>
export type Pressure = In<'pressure'>
export type Plain = Measure<'one'>

/**
 * A number with a unit put on it. Units: those given. Fails: never. Source: none needed.
 */
export const measure = <U extends TradeUnit>(number: Ratio, unit: U): Measure<U> => ({
  n: number.n,
  d: number.d,
  unit,
})

/**
 * A constant from its text: `exactly('4 1/4', 'in')`. Units: those given. Fails: by exception, since a constant that
 * can't be read is a slip in the source. Source: none needed.
 */
export const exactly = <U extends TradeUnit>(text: string, unit: U): Measure<U> => {
  const number = readNumber(text)
  if (!number.ok) throw new Error(`no number: ${text}`)
  return measure(number.value, unit)
}

/**
 * A whole number of a unit. Units: those given. Fails: by exception where the number is not whole.
 * Source: none needed.
 */
export const whole = <U extends TradeUnit>(number: number | bigint, unit: U): Measure<U> =>
  measure(ratio(BigInt(number)), unit)

/**
 * The same in another unit of its dimension, exactly; a type error across dimensions.
 * Units: any → the one asked for. Fails: never. Source: NIST SP 811 (2008), Appendix B.8.
 */
export const toUnit = <U extends TradeUnit>(m: Measure<Like<U>>, unit: U): Measure<U> => {
  const [from, into] = [sizeOfUnit(m.unit), sizeOfUnit(unit)]
  if (from === into) return measure(m, unit)
  const si = times(minus(m, from.zero ?? ZERO), from.size)
  return measure(plus(over(si, into.size), into.zero ?? ZERO), unit)
}

/**
 * A measure as a float in a unit, for formulas that have powers in them. Units: any → the one asked for.
 * Fails: never; the nearest double to an exact number. Source: none needed.
 */
export const asFloat = <U extends TradeUnit>(m: Measure<Like<U>>, unit: U): number => {
  const { n, d } = toUnit(m, unit)
  // Past 2^53 the two halves would each lose digits; dividing in whole numbers first keeps 17.
  const scale = 10n ** 20n
  return n > 2n ** 53n || n < -(2n ** 53n) || d > 2n ** 53n
    ? Number((n * scale) / d) / Number(scale)
    : Number(n) / Number(d)
}

/**
 * An estimate in another unit of its dimension. Units: any → the one asked for. Fails: never.
 * Source: NIST SP 811 (2008), Appendix B.8.
 */
export const toEstimate = <U extends TradeUnit>(e: Estimate<Like<U>>, unit: U): Estimate<U> => {
  const [from, into] = [sizeOfUnit(e.unit), sizeOfUnit(unit)]
  const float = (r: Ratio | undefined) => (r ? Number(r.n) / Number(r.d) : 0)
  const si = (e.estimate - float(from.zero)) * float(from.size)
  return { estimate: si / float(into.size) + float(into.zero), unit }
}

/**
 * Which of two measures is the more: below zero, zero or above. Units: any two of one dimension. Fails: never.
 * Source: none needed.
 */
export const compareMeasures = <U extends TradeUnit>(a: Measure<U>, b: Measure<Like<U>>): number =>
  compare(toUnit(a as Measure, b.unit as TradeUnit), b)

/**
 * Rounded to the nearest step, halves away from zero: a report “to the nearest ¼ in”. Units: step’s → step’s.
 * Fails: never; a step of zero is a slip in the source. Source: ASTM E29 rounding is to even on halves, which test
 * methods that say “nearest ¼ in” do not ask for; halves up is our choice.
 */
export const roundTo = <U extends TradeUnit>(m: Measure<Like<U>>, step: Measure<U>): Measure<U> => {
  const steps = over(toUnit(m, step.unit), step)
  const size = steps.n < 0n ? -steps.n : steps.n
  const count = (size * 2n + steps.d) / (steps.d * 2n)
  return measure(times(ratio(steps.n < 0n ? -count : count), step), step.unit)
}

/**
 * Rounded up to the next step: an order is never rounded down. Units: step’s → step’s. Fails: never.
 * Source: Beall, Masonry and Concrete (2004) §3.1.1, “round up”.
 */
export const roundUpTo = <U extends TradeUnit>(m: Measure<Like<U>>, step: Measure<U>): Measure<U> => {
  const steps = over(toUnit(m, step.unit), step)
  return measure(times(ratio(ceiling(steps)), step), step.unit)
}

/**
 * The least whole number that is not below a ratio. Units: none. Fails: never. Source: arithmetic.
 */
export const ceiling = ({ n, d }: Ratio): bigint => (n >= 0n ? (n + d - 1n) / d : -(-n / d))

const ZERO = ratio(0n)
