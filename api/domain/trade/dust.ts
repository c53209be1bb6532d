import { fail, ok, type Result } from '../result.ts'
import { over, plus, type Ratio, ratio, times } from '../units.ts'
import { type Input, offCount, offRange, type TradeProblem } from './asked.ts'
import { compareMeasures, type Duration, exactly, type In, type Measure, measure, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** Respirable crystalline silica over eight hours. Source: 29 CFR 1926.1153, as summarised. */
export const SILICA = {
  permissible: exactly('50', 'ug/m3'),
  action: exactly('25', 'ug/m3'),
  averaging: exactly('8', 'h'),
} as const

/** A stretch of work and the silica in its air. */
export type DustStretch = { readonly duration: Duration; readonly silica: In<'dust'> }
export type DustAverage = {
  readonly average: Measure<'ug/m3'>
  /** At the action level or above it. */
  readonly atAction: boolean
  readonly abovePermissible: boolean
  readonly source: SourceId
}

/**
 * Eight-hour average of silica in the air, as when joints are sawn. Units: any times and dust → µg/m³.
 * Fails: `missing`, `out-of-range` (1 to 100 stretches). Source: 29 CFR 1926.1153: Σ c·h / 8; action level 25, limit 50.
 */
export const silicaAverage = (
  stretches: Input<readonly DustStretch[]>,
): Result<DustAverage, TradeProblem> => {
  const off = offCount('/stretches', stretches, 1, 100)
  if (off || !stretches) return off ?? fail('missing', '/stretches')
  for (const [i, { duration, silica }] of stretches.entries()) {
    const odd =
      offRange(`/stretches/${i}/duration`, duration, RANGES.dayHours) ??
      offRange(`/stretches/${i}/silica`, silica, RANGES.dust)
    if (odd) return odd
  }
  const dose = stretches.reduce(
    (all: Ratio, { duration, silica }) => plus(all, times(toUnit(duration, 'h'), toUnit(silica, 'ug/m3'))),
    ratio(0n),
  )
  const average = measure(over(dose, SILICA.averaging), 'ug/m3')
  return ok({
    average,
    atAction: compareMeasures(average, SILICA.action) >= 0,
    abovePermissible: compareMeasures(average, SILICA.permissible) > 0,
    source: 'osha',
  })
}
