import { fail, ok, type Result } from '../result.ts'
import { type Input, offCount, offRange, type TradeProblem } from './asked.ts'
import { compareMeasures, type Duration, exactly, type Temperature } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** ACI 306R changed its definition; both are live. The newer one is the default, and every answer names its own. */
export type ColdDefinition = '306R-88' | '306R-10'
export const COLD_DEFINITION: ColdDefinition = '306R-10'

export type ColdWeather = {
  readonly cold: boolean
  readonly definition: ColdDefinition
  readonly source: SourceId
}

const F40 = exactly('40', 'degF')
const HALF_DAY = exactly('12', 'h')

/** One day: its mean, and for how long it was above 50 °F. */
export type Day = { readonly mean: Temperature; readonly above50: Duration }

/**
 * Cold weather by the older words: more than three days in a row with a mean below 40 °F, ended by a day that is above
 * 50 °F for more than half of its 24 h. Units: any temperatures and times → yes or no, as of the last day.
 * Fails: `missing`, `out-of-range` (1 to 400 days). Source: ACI 306R-88, as quoted in PCA chapter 14.
 */
export const coldWeatherOlder = (days: Input<readonly Day[]>): Result<ColdWeather, TradeProblem> => {
  const off = offCount('/days', days, 1, 400)
  if (off || !days) return off ?? fail('missing', '/days')
  let cold = false
  let inARow = 0
  for (const [i, { mean, above50 }] of days.entries()) {
    const odd =
      offRange(`/days/${i}/mean`, mean, RANGES.airTemperature) ??
      offRange(`/days/${i}/above50`, above50, RANGES.dayHours)
    if (odd) return odd
    const warm = compareMeasures(above50, HALF_DAY) > 0
    inARow = !warm && compareMeasures(mean, F40) < 0 ? inARow + 1 : 0
    cold = warm ? false : cold || inARow > 3
  }
  return ok({ cold, definition: '306R-88', source: '306r-88' })
}

/**
 * Cold weather by the newer words: the air has fallen, or is expected to fall, below 40 °F while the concrete is
 * protected. Just 40 °F is not below it. Units: any temperature → yes or no. Fails: `missing`, `out-of-range`.
 * Source: ACI 306R-10 and ACI Concrete Terminology, as on ACI’s own page.
 */
export const coldWeatherNewer = (lowest: Input<Temperature>): Result<ColdWeather, TradeProblem> => {
  const off = offRange('/lowest', lowest, RANGES.airTemperature)
  if (off || !lowest) return off ?? fail('missing', '/lowest')
  return ok({ cold: compareMeasures(lowest, F40) < 0, definition: '306R-10', source: '306r-10' })
}
