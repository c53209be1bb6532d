import { ok, type Result } from '../result.ts'
import { ask, type Input, offOrder, readAll, type TradeProblem } from './asked.ts'
import { asFloat, type Estimate, type Share, type Temperature, toEstimate } from './measure.ts'
import { RANGES } from './ranges.ts'

/** Which curve of saturation: AZMET’s (the default) or the one that the weather service prints. They differ below 0.1 %. */
export type VapourCurve = 'azmet' | 'nws'
export const VAPOUR_CURVE: VapourCurve = 'azmet'

/**
 * Saturation vapour pressure over water. Units: any temperature → hPa (millibar).
 * Fails: `missing`, `out-of-range` (−40 to 140 °F: over water, not ice).
 * Source: AZMET: 6.108 exp(17.27 T / (237.3 + T)); NWS: 6.11 · 10^(7.5 T / (237.3 + T)), from memory.
 */
export const saturationPressure = (of: {
  readonly temperature: Input<Temperature>
  readonly curve?: VapourCurve
}): Result<Estimate<'hPa'>, TradeProblem> => {
  const read = readAll({ temperature: ask(of.temperature, RANGES.vapourTemperature) })
  if (!read.ok) return read
  return ok({
    estimate: pressureAt(asFloat(read.value.temperature, 'degC'), of.curve ?? VAPOUR_CURVE),
    unit: 'hPa',
  })
}

/**
 * Relative humidity from air temperature and dew point. Units: any temperatures → per cent.
 * Fails: `missing`, `out-of-range`; `contradiction` where the dew point is above the temperature.
 * Source: RH = 100 e(Td) / e(T), by the curve that was chosen.
 */
export const relativeHumidity = (of: {
  readonly temperature: Input<Temperature>
  readonly dewPoint: Input<Temperature>
  readonly curve?: VapourCurve
}): Result<Estimate<'pct'>, TradeProblem> => {
  const read = readAll({
    temperature: ask(of.temperature, RANGES.vapourTemperature),
    dewPoint: ask(of.dewPoint, RANGES.vapourTemperature),
  })
  if (!read.ok) return read
  const t = asFloat(read.value.temperature, 'degC')
  const d = asFloat(read.value.dewPoint, 'degC')
  const curve = of.curve ?? VAPOUR_CURVE
  // Equal is no contradiction: the air is saturated.
  if (d > t) return offOrder(['dewPoint', read.value.dewPoint], ['temperature', read.value.temperature])!
  return ok({ estimate: (100 * pressureAt(d, curve)) / pressureAt(t, curve), unit: 'pct' })
}

/**
 * Dew point from air temperature and relative humidity. Units: any temperature, per cent → °F.
 * Fails: `missing`, `out-of-range` (1 to 100 %: dry air has no dew point).
 * Source: AZMET: B = (ln(RH/100) + 17.27 T/(237.3 + T))/17.27; Td = 237.3 B/(1 − B).
 */
export const dewPoint = (of: {
  readonly temperature: Input<Temperature>
  readonly humidity: Input<Share>
}): Result<Estimate<'degF'>, TradeProblem> => {
  const read = readAll({
    temperature: ask(of.temperature, RANGES.vapourTemperature),
    humidity: ask(of.humidity, RANGES.someHumidity),
  })
  if (!read.ok) return read
  const t = asFloat(read.value.temperature, 'degC')
  const b = (Math.log(asFloat(read.value.humidity, 'pct') / 100) + (17.27 * t) / (237.3 + t)) / 17.27
  return ok(toEstimate({ estimate: (237.3 * b) / (1 - b), unit: 'degC' }, 'degF'))
}

const pressureAt = (celsius: number, curve: VapourCurve): number =>
  curve === 'azmet'
    ? 6.108 * Math.exp((17.27 * celsius) / (237.3 + celsius))
    : 6.11 * 10 ** ((7.5 * celsius) / (237.3 + celsius))
