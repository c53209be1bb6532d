import { ok, type Result } from '../result.ts'
import { over, type Ratio, times } from '../units.ts'
import { ask, type Input, readAll, type TradeProblem } from './asked.ts'
import { type Density, exactly, type In, type Length, type Measure, measure, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** The printed rules of thumb; they differ, so each result names its own. `gallon` is the default. */
export type ThumbRule = 'gallon' | 'gallon-with-air' | 'four-litres'
export const THUMB_RULE: ThumbRule = 'gallon'

/**
 * What added water is said to do. A caution line and never a strength: nobody can work out what a slab lost.
 * Undefined where that rule doesn’t speak of it.
 */
export type ThumbEffect = {
  readonly slump: Measure<'in'> | undefined
  readonly strengthLossLeast: Measure<'psi'>
  readonly strengthLossMost: Measure<'psi'>
  readonly shrinkage: Measure<'pct'> | undefined
  readonly airLeast: Measure<'pct'> | undefined
  readonly airMost: Measure<'pct'> | undefined
  /** Cement’s worth that is lost, in sacks. */
  readonly cement: Measure<'one'> | undefined
  readonly source: SourceId
}

/** Each rule’s own words, for the water that it names. Sources: as named in each. */
const RULES = {
  gallon: {
    for: exactly('1', 'gal/yd3'),
    slump: exactly('1', 'in'),
    strengthLossLeast: exactly('150', 'psi'),
    strengthLossMost: exactly('200', 'psi'),
    shrinkage: exactly('10', 'pct'),
    airLeast: undefined,
    airMost: undefined,
    cement: exactly('1/4', 'one'),
    source: 'gallon-rule',
  },
  'gallon-with-air': {
    for: exactly('1', 'gal/yd3'),
    slump: undefined,
    strengthLossLeast: exactly('200', 'psi'),
    strengthLossMost: exactly('400', 'psi'),
    shrinkage: undefined,
    airLeast: exactly('0.5', 'pct'),
    airMost: exactly('1', 'pct'),
    cement: undefined,
    source: 'gallon-rule-air',
  },
  'four-litres': {
    for: exactly('4', 'L/m3'),
    slump: toUnit(exactly('25', 'mm'), 'in'),
    strengthLossLeast: toUnit(exactly('1.5', 'MPa'), 'psi'),
    strengthLossMost: toUnit(exactly('2', 'MPa'), 'psi'),
    shrinkage: exactly('10', 'pct'),
    airLeast: undefined,
    airMost: undefined,
    cement: undefined,
    source: 'litre-rule',
  },
} as const

/**
 * The rule-of-thumb effect of water added to each yard, for a caution line; in proportion to the water.
 * Units: any water per concrete → inches, psi, per cent, sacks. Fails: `missing`, `out-of-range` (up to 10 gal/yd³: no
 * thumb reaches farther). Source: Concrete Construction, adjusting slump in the field, and adding water; metric list.
 */
export const thumbEffect = (of: {
  readonly added: Input<In<'water-per-concrete'>>
  readonly rule?: ThumbRule
}): Result<ThumbEffect, TradeProblem> => {
  const read = readAll({ added: ask(of.added, RANGES.thumbWater) })
  if (!read.ok) return read
  const rule = RULES[of.rule ?? THUMB_RULE]
  const factor = over(toUnit(read.value.added, 'gal/yd3'), toUnit(rule.for, 'gal/yd3'))
  const scaled = <U extends 'in' | 'psi' | 'pct' | 'one'>(m: Measure<U>): Measure<U> =>
    measure(times(m, factor), m.unit)
  const maybe = <U extends 'in' | 'pct' | 'one'>(m: Measure<U> | undefined) => m && scaled(m)
  return ok({
    slump: maybe<'in'>(rule.slump),
    strengthLossLeast: scaled(rule.strengthLossLeast),
    strengthLossMost: scaled(rule.strengthLossMost),
    shrinkage: maybe<'pct'>(rule.shrinkage),
    airLeast: maybe<'pct'>(rule.airLeast),
    airMost: maybe<'pct'>(rule.airMost),
    cement: maybe<'one'>(rule.cement),
    source: rule.source,
  })
}

/** Water in each yard that is said to raise the slump by an inch. Source: ACI 211 rule, from memory. */
const POUNDS_PER_INCH: Ratio = exactly('10', 'lb/yd3')

/**
 * What a change of water in the mix is said to do to the slump: 10 lb per yd³ for an inch. It differs from the gallon
 * rule (a gallon weighs 8.34 lb). Units: any content → inches. Fails: `missing`, `out-of-range`.
 * Source: ACI 211 rule of 10 lb per yd³ and inch, from memory.
 */
export const slumpForWater = (of: {
  readonly added: Input<Density>
}): Result<Measure<'in'>, TradeProblem> => {
  const read = readAll({ added: ask(of.added, RANGES.thumbContent) })
  return read.ok ? ok(measure(over(toUnit(read.value.added, 'lb/yd3'), POUNDS_PER_INCH), 'in')) : read
}

/**
 * The other way: water that a change of slump is said to ask for in a mix; below zero takes water out.
 * Units: any length (with its sign) → lb/yd³. Fails: `missing`, `out-of-range`.
 * Source: ACI 211 rule of 10 lb per yd³ and inch, from memory.
 */
export const waterForSlump = (of: {
  readonly change: Input<Length>
}): Result<Measure<'lb/yd3'>, TradeProblem> => {
  const read = readAll({ change: ask(of.change, RANGES.slumpChange) })
  return read.ok ? ok(measure(times(toUnit(read.value.change, 'in'), POUNDS_PER_INCH), 'lb/yd3')) : read
}
