import { type Fail, fail, ok, type Result } from '../result.ts'
import { compare, showNumber } from '../units.ts'
import { compareMeasures, type Measure } from './measure.ts'
import type { Like, TradeUnit } from './unit-table.ts'

/** What can be meant by a field: outside it, a number is a slip of the tongue or of the unit, and nothing is worked out. */
export type Range<U extends TradeUnit = TradeUnit> = {
  readonly least: Measure<U>
  readonly most: Measure<U>
}
/** A field is missing; or it lies outside its range; or two that depend on each other can't both be so. */
export type TradeProblem = 'missing' | 'out-of-range' | 'contradiction'
/** What a formula needs, and may not have been recorded. */
export type Input<M> = M | undefined

/** A field with its range, waiting to be read. */
export type Asked<U extends TradeUnit> = { readonly given: Measure<U> | undefined; readonly range: Range }

/**
 * A field with the range in which it can be meant. Units: any of the range’s dimension. Fails: never; `readAll` tells.
 * Source: each range says its own.
 */
export const ask = <U extends TradeUnit>(given: Input<Measure<U>>, range: Range<Like<U>>): Asked<U> => ({
  given,
  range,
})

type Read<T extends Record<string, Asked<TradeUnit>>> = {
  [K in keyof T]: T[K] extends Asked<infer U> ? Measure<U> : never
}

/**
 * All fields of a formula, or the first that is missing or out of range, by name, with what was given and the range.
 * Units: as given. Fails: `missing`, `out-of-range`. Source: each range says its own.
 */
export const readAll = <T extends Record<string, Asked<TradeUnit>>>(
  fields: T,
): Result<Read<T>, 'missing' | 'out-of-range'> => {
  for (const [name, field] of Object.entries(fields)) {
    const off = offRange(`/${name}`, field.given, field.range)
    if (off) return off
  }
  return ok(
    Object.fromEntries(
      Object.entries(fields).map(([name, { given }]) => [name, given]),
    ) as unknown as Read<T>,
  )
}

/**
 * The problem with one field, or undefined where it is there and in its range.
 * Units: any of the range’s dimension. Fails: `missing`, `out-of-range`. Source: the range says its own.
 */
export const offRange = (
  at: string,
  given: Measure | undefined,
  { least, most }: Range,
): Fail<'missing' | 'out-of-range'> | undefined => {
  const range = { least: showAsked(least), most: showAsked(most) }
  if (given === undefined) return fail('missing', at, range)
  return compareMeasures(given, least) < 0 || compareMeasures(given, most) > 0
    ? fail('out-of-range', at, { given: showAsked(given), ...range })
    : undefined
}

/**
 * Refuses a list that is too short, or too long to be meant. Units: none. Fails: `missing`, `out-of-range`.
 * Source: our choice.
 */
export const offCount = (
  at: string,
  given: readonly unknown[] | undefined,
  least: number,
  most: number,
): Fail<'missing' | 'out-of-range'> | undefined => {
  if (given === undefined || (given.length === 0 && least > 0)) return fail('missing', at, { least, most })
  return given.length < least || given.length > most
    ? fail('out-of-range', at, { given: given.length, least, most })
    : undefined
}

/**
 * Refuses two fields that can’t both be so: an inner diameter that is no less than the outer.
 * Units: any, both of one dimension. Fails: `contradiction`. Source: our choice.
 */
export const offOrder = (
  less: readonly [name: string, Measure],
  more: readonly [name: string, Measure],
): Fail<'contradiction'> | undefined =>
  compareMeasures(less[1], more[1]) < 0
    ? undefined
    : fail('contradiction', `/${less[0]}`, {
        given: showAsked(less[1]),
        below: `${more[0]} (${showAsked(more[1])})`,
      })

/** Enough digits that a number just outside a range does not print as its end. */
const showAsked = (m: Measure): string => {
  const text = showNumber(m, 6)
  return m.unit === 'one' ? text : `${text === '0' && compare(m, ZERO) !== 0 ? '≈0' : text} ${m.unit}`
}
const ZERO = { n: 0n, d: 1n }
