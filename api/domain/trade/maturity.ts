import { fail, ok, type Result } from '../result.ts'
import { compare, minus, plus, type Ratio, ratio, times } from '../units.ts'
import { type Input, offCount, offRange, type TradeProblem } from './asked.ts'
import {
  asFloat,
  type Duration,
  type Estimate,
  exactly,
  type Measure,
  measure,
  type Plain,
  type Temperature,
  toUnit,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** A stretch of time and the concrete’s mean temperature in it. */
export type Interval = { readonly duration: Duration; readonly temperature: Temperature }

/**
 * Datum temperatures in use. They differ, so each result keeps its own. Source: ASTM C1074 suggests 0 °C for Type I
 * without admixtures between 0 and 40 °C; many road departments −10 °C (from memory); textbooks −11 °C.
 */
export const DATUMS = {
  c1074: exactly('0', 'degC'),
  roads: exactly('-10', 'degC'),
  textbook: exactly('-11', 'degC'),
} as const
export const DATUM = DATUMS.c1074

export type NurseSaul = {
  readonly maturity: Measure<'degC.h'>
  readonly datum: Measure<'degC'>
  readonly source: 'c1074'
}

/**
 * Temperature–time factor. Time below the datum adds nothing and takes nothing away.
 * Units: any times and temperatures → °C·h. Fails: `missing`, `out-of-range` (1 to 10,000 intervals).
 * Source: ASTM C1074, Nurse–Saul: M = Σ (Ta − T₀) Δt. A strength needs that mix’s own curve.
 */
export const nurseSaul = (of: {
  readonly intervals: Input<readonly Interval[]>
  readonly datum?: Temperature
}): Result<NurseSaul, TradeProblem> => {
  const datum = of.datum ?? DATUM
  const off = offIntervals(of.intervals) ?? offRange('/datum', datum, RANGES.curingTemperature)
  if (off || !of.intervals) return off ?? fail('missing', '/intervals')
  const base = toUnit(datum, 'degC')
  const total = of.intervals.reduce((all: Ratio, { duration, temperature }) => {
    const above = minus(toUnit(temperature, 'degC'), base)
    return compare(above, ZERO) > 0 ? plus(all, times(above, toUnit(duration, 'h'))) : all
  }, ZERO)
  return ok({ maturity: measure(total, 'degC.h'), datum: base, source: 'c1074' })
}

/** What an equivalent age depends on; kept beside each result. */
export type ArrheniusConstants = {
  /** Activation energy over the gas constant, kelvin. */
  readonly activation: Plain
  /** The temperature that ages are told at, kelvin. */
  readonly reference: Plain
  /** What °C is short of kelvin: 273.15, or 273 as TI-B 103 has it. */
  readonly kelvin: Plain
}
const one = (text: string) => exactly(text, 'one')
/** Source: ASTM C1074 suggests 5,000 K (from memory); 23 °C (from memory) or 20 °C (TI-B 103). */
export const ARRHENIUS = {
  c1074: { activation: one('5000'), reference: one('296.15'), kelvin: one('273.15') },
  'ti-b-103': { activation: one('5000'), reference: one('293'), kelvin: one('273') },
} as const satisfies Record<string, ArrheniusConstants>

export type EquivalentAge = {
  readonly age: Estimate<'h'>
  readonly constants: ArrheniusConstants
  readonly source: 'c1074'
}

/**
 * Hours at the reference temperature that count the same. Units: any times and temperatures → hours.
 * Fails: `missing`, `out-of-range` (1 to 10,000 intervals; activation 1,000 to 10,000 K).
 * Source: ASTM C1074, te = Σ exp[−Q (1/Ta − 1/Ts)] Δt, as in TI-B 103 (94).
 */
export const equivalentAge = (of: {
  readonly intervals: Input<readonly Interval[]>
  readonly constants?: ArrheniusConstants
}): Result<EquivalentAge, TradeProblem> => {
  const constants = of.constants ?? ARRHENIUS.c1074
  const off = offIntervals(of.intervals) ?? offConstants(constants)
  if (off || !of.intervals) return off ?? fail('missing', '/intervals')
  const age = of.intervals.reduce(
    (all, { duration, temperature }) => all + factorAt(temperature, constants) * asFloat(duration, 'h'),
    0,
  )
  return ok({ age: { estimate: age, unit: 'h' }, constants, source: 'c1074' })
}

/**
 * How much faster than at the reference a concrete ages at a temperature. Units: any temperature → plain number.
 * Fails: `missing`, `out-of-range`. Source: TI-B 103 (94): H = exp[E/R (1/293 − 1/(273 + T))].
 */
export const ageFactor = (of: {
  readonly temperature: Input<Temperature>
  readonly constants?: ArrheniusConstants
}): Result<Estimate<'one'>, TradeProblem> => {
  const constants = of.constants ?? ARRHENIUS.c1074
  const off = offRange('/temperature', of.temperature, RANGES.curingTemperature) ?? offConstants(constants)
  if (off || !of.temperature) return off ?? fail('missing', '/temperature')
  return ok({ estimate: factorAt(of.temperature, constants), unit: 'one' })
}

/** Percent of strength by maturity for a mix, Plowman’s straight line. Its two constants are a mix’s own. */
export type PlowmanLine = { readonly a: number; readonly b: number }
/** Source: Plowman’s A and B for one strength range, from memory: never for another mix. */
export const PLOWMAN: PlowmanLine = { a: 32, b: 54 }

/**
 * Strength as a share of 28 days at 18 °C, by Plowman’s line. Units: °C·h above −11 °C → per cent.
 * Fails: `missing`, `out-of-range` (100 to 100,000 °C·h). Source: Plowman: A + B log₁₀(M/1000); the formula read, the
 * default A = 32 and B = 54 from memory.
 */
export const plowmanStrength = (
  maturity: Input<Measure<'degC.h'>>,
  line: PlowmanLine = PLOWMAN,
): Result<Estimate<'pct'>, TradeProblem> => {
  const off = offRange('/maturity', maturity, RANGES.maturity)
  if (off || !maturity) return off ?? fail('missing', '/maturity')
  return ok({ estimate: line.a + line.b * Math.log10(asFloat(maturity, 'degC.h') / 1_000), unit: 'pct' })
}

const ZERO = ratio(0n)
const factorAt = (
  temperature: Temperature,
  { activation, reference, kelvin }: ArrheniusConstants,
): number => {
  const ta = asFloat(temperature, 'degC') + asFloat(kelvin, 'one')
  return Math.exp(-asFloat(activation, 'one') * (1 / ta - 1 / asFloat(reference, 'one')))
}

const offIntervals = (intervals: Input<readonly Interval[]>) => {
  const off = offCount('/intervals', intervals, 1, 10_000)
  if (off || !intervals) return off
  for (const [i, { duration, temperature }] of intervals.entries()) {
    const odd =
      offRange(`/intervals/${i}/duration`, duration, RANGES.hours) ??
      offRange(`/intervals/${i}/temperature`, temperature, RANGES.curingTemperature)
    if (odd) return odd
  }
  return undefined
}

const offConstants = (c: ArrheniusConstants) =>
  offRange('/activation', c.activation, RANGES.activation) ??
  offRange('/reference', c.reference, RANGES.referenceKelvin) ??
  offRange('/kelvin', c.kelvin, RANGES.kelvinOffset)
