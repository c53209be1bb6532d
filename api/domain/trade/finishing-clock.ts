import { ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, times } from '../units.ts'
import { ask, type Input, readAll, type TradeProblem } from './asked.ts'
import { exactly, type Measure, measure, type Temperature, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** Approximate hours to set of a plain mix, by °F. Source: setting time table, CE 584, Penn State. */
const SET_HOURS = [
  ['30', '19'],
  ['40', '14'],
  ['50', '11'],
  ['60', '8'],
  ['70', '6'],
  ['80', '4'],
  ['90', '8/3'],
  ['100', '5/3'],
] as const
/** How far either way a mix, sun, wind, base and depth are taken to shift it: by a half. Source: our choice. */
const EITHER_WAY = ratio(1n, 2n)

/** A band and never a time: the boot print and the sheen decide, not the clock. */
export type FinishingBand = {
  readonly about: Measure<'h'>
  readonly from: Measure<'h'>
  readonly to: Measure<'h'>
  readonly source: SourceId
}

/**
 * About when a plain mix sets after batching, as a band, by the concrete’s temperature; between rows of the table by a
 * straight line. It says nothing of bleed water: nobody finishes while it stands.
 * Units: any temperature → hours. Fails: `missing`, `out-of-range` (30 to 100 °F, the table’s ends).
 * Source: setting time table, CE 584, Penn State; a half either way is our choice (20 °F are said to halve or double it).
 */
export const finishingBand = (of: {
  readonly temperature: Input<Temperature>
}): Result<FinishingBand, TradeProblem> => {
  const read = readAll({ temperature: ask(of.temperature, RANGES.settingTemperature) })
  if (!read.ok) return read
  const about = hoursAt(toUnit(read.value.temperature, 'degF'))
  const off = (share: Ratio) => measure(times(about, plus(ratio(1n), share)), 'h')
  return ok({
    about: measure(about, 'h'),
    from: off(minus(ratio(0n), EITHER_WAY)),
    to: off(EITHER_WAY),
    source: 'set-time',
  })
}

const hoursAt = (fahrenheit: Ratio): Ratio => {
  const rows = SET_HOURS.map(([f, h]) => [exactly(f, 'degF'), exactly(h, 'h')] as const)
  const above = Math.max(
    1,
    rows.findIndex(([f]) => compare(f, fahrenheit) >= 0),
  )
  const [[f0, h0], [f1, h1]] = [rows[above - 1]!, rows[above]!]
  const part = over(minus(fahrenheit, f0), minus(f1, f0))
  return plus(h0, times(part, minus(h1, h0)))
}
