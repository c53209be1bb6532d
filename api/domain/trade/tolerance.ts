import { ok, type Result } from '../result.ts'
import { compare, minus, plus, type Ratio, ratio } from '../units.ts'
import { ask, type Input, offRange, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit } from './finding.ts'
import { exactly, type Length, type Measure, measure, type Share, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'

/**
 * What holds where an order asks for a slump or an air content and names no tolerance: C94’s own tables, or nothing but
 * what is stated. Source: our choice of the default.
 */
export type ToleranceRule = 'c94' | 'stated-only'
export const TOLERANCE_RULE: ToleranceRule = 'c94'

/** How a slump was asked for: as a target, or as the most that it may be. */
export type SlumpForm = 'target' | 'maximum'

const inch = (text: string) => exactly(text, 'in')
/** Plus and minus by how large the target is. Source: ASTM C94/C94M, from memory; the 4 in row through ACI 117. */
const TARGET_ROWS = [
  { upTo: inch('2'), tolerance: inch('0.5') },
  { upTo: inch('4'), tolerance: inch('1') },
  { upTo: inch('12'), tolerance: inch('1.5') },
] as const
/** Minus alone. Source: ASTM C94/C94M, from memory. */
const MAXIMUM_ROWS = [
  { upTo: inch('3'), tolerance: inch('1.5') },
  { upTo: inch('12'), tolerance: inch('2.5') },
] as const

/**
 * The ends within which a slump lies, where the order names none of its own. Units: any length → inches.
 * Fails: `missing`, `out-of-range`. Source: ASTM C94/C94M, slump tolerances, from memory (±½, ±1, ±1½ in for targets to
 * 2, 4 and above; +0/−1½ to 3 and +0/−2½ above for a maximum); the 4 in target through ACI 301 with ACI 117.
 */
export const slumpTolerance = (of: {
  readonly specified: Input<Length>
  readonly form: SlumpForm
}): Result<Limit<'in'> & { readonly least: Measure<'in'>; readonly most: Measure<'in'> }, TradeProblem> => {
  const read = readAll({ specified: ask(of.specified, RANGES.slump) })
  if (!read.ok) return read
  const specified = toUnit(read.value.specified, 'in')
  const rows = of.form === 'target' ? TARGET_ROWS : MAXIMUM_ROWS
  const { tolerance } = rows.find(({ upTo }) => compare(specified, upTo) <= 0) ?? rows.at(-1)!
  const source = of.form === 'target' && compare(specified, inch('4')) === 0 ? 'aci-117' : 'c94-slump'
  return ok({
    least: measure(notBelowZero(minus(specified, tolerance)), 'in'),
    most: of.form === 'target' ? measure(plus(specified, tolerance), 'in') : specified,
    source,
  })
}

/** Points of air either way at delivery. Source: ASTM C94/C94M §8, and town specifications. */
export const AIR_TOLERANCE = exactly('1.5', 'pct')

/**
 * An air reading against what was specified, either way. Units: per cent → per cent, finding.
 * Fails: `missing` (what was specified), `out-of-range`; air that nobody measured stays not recorded.
 * Source: ASTM C94/C94M §8: ±1.5 points, unless the order names its own tolerance.
 */
export const airFinding = (of: {
  readonly specified: Input<Share>
  readonly tolerance?: Input<Share>
  readonly measured: Input<Share>
}): Result<Finding<'pct'>, TradeProblem> => {
  const read = readAll({
    specified: ask(of.specified, RANGES.air),
    tolerance: ask(of.tolerance ?? AIR_TOLERANCE, RANGES.airTolerance),
  })
  if (!read.ok) return read
  const off = of.measured && offRange('/measured', of.measured, RANGES.air)
  const { specified, tolerance } = read.value
  return (
    off ??
    ok(
      compareTo('air', of.measured, {
        least: measure(notBelowZero(minus(specified, tolerance)), 'pct'),
        most: measure(plus(specified, tolerance), 'pct'),
        source: of.tolerance ? 'order' : 'c94-air',
      }),
    )
  )
}

const ZERO = ratio(0n)
const notBelowZero = (r: Ratio): Ratio => (compare(r, ZERO) < 0 ? ZERO : r)
