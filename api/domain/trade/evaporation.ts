import { ok, type Result } from '../result.ts'
import { ask, type Input, readAll, type TradeProblem } from './asked.ts'
import type { Verdict } from './finding.ts'
import { saturationPressure } from './humidity.ts'
import {
  asFloat,
  type Estimate,
  exactly,
  type Length,
  type Measure,
  type Share,
  type Speed,
  type Temperature,
  toEstimate,
} from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/**
 * Which printed formula. The forms differ by 3–5 %, so one day can lie on both sides of a threshold: the US form is the
 * default, and the result names its own. The rounded SI form is the paper’s; `uno-si-exact` is the US form restated.
 */
export type EvaporationForm = 'uno-us' | 'uno-si-rounded' | 'uno-si-exact' | 'menzel'
export const EVAPORATION_FORM: EvaporationForm = 'uno-us'

export type Evaporation = {
  /** Below zero where water settles on the surface instead; never clamped. */
  readonly rate: Estimate<'lb/ft2/h'>
  readonly rateSi: Estimate<'kg/m2/h'>
  readonly form: EvaporationForm
  readonly source: SourceId
  readonly direction: 'leaves' | 'settles'
}

/**
 * The rate at which water leaves a wet slab surface. What is not known (the surface’s own temperature, the wind 20 in
 * above it) makes it good to about ±40 %: a caution, not a measurement.
 * Units: any temperatures, per cent, any speed → lb/ft²/h and kg/m²/h.
 * Fails: `missing`, `out-of-range` (temperatures above freezing). A negative rate (condensation) is returned.
 * Source: Uno, ACI Materials Journal 95 (1998), 95-M34, US form E = (Tc^2.5 − r Ta^2.5)(1 + 0.4 V) 10⁻⁶, °F and mph;
 * SI form 5 ([Tc + 18]^2.5 − r [Ta + 18]^2.5)(V + 4) 10⁻⁶, °C and km/h; Menzel 0.44 (e₀ − eₐ)(0.253 + 0.096 V), psi
 * and mph, from memory.
 */
export const evaporationRate = (of: {
  readonly concrete: Input<Temperature>
  readonly air: Input<Temperature>
  readonly humidity: Input<Share>
  readonly wind: Input<Speed>
  readonly form?: EvaporationForm
}): Result<Evaporation, TradeProblem> => {
  const read = readAll({
    concrete: ask(of.concrete, RANGES.wetSurface),
    air: ask(of.air, RANGES.windowAir),
    humidity: ask(of.humidity, RANGES.humidity),
    wind: ask(of.wind, RANGES.wind),
  })
  if (!read.ok) return read
  const form = of.form ?? EVAPORATION_FORM
  const { law, source } = FORMS[form]
  const rate = law(read.value)
  const us = toEstimate(rate, 'lb/ft2/h')
  return ok({
    rate: us,
    rateSi: toEstimate(rate, 'kg/m2/h'),
    form,
    source,
    direction: us.estimate < 0 ? 'settles' : 'leaves',
  })
}

type Weather = {
  readonly concrete: Temperature
  readonly air: Temperature
  readonly humidity: Share
  readonly wind: Speed
}
type Law = (w: Weather) => Estimate<'lb/ft2/h'> | Estimate<'kg/m2/h'>

const unoUs: Law = (w) => {
  const moist = asFloat(w.concrete, 'degF') ** 2.5 - shareOf(w.humidity) * asFloat(w.air, 'degF') ** 2.5
  return { estimate: moist * (1 + 0.4 * asFloat(w.wind, 'mph')) * 1e-6, unit: 'lb/ft2/h' }
}

/** The SI form with its three constants: a factor, what is added to °C, and to km/h. */
const unoSi =
  (factor: number, addC: number, addWind: number): Law =>
  (w) => {
    const power = (t: Temperature) => (asFloat(t, 'degC') + addC) ** 2.5
    const moist = power(w.concrete) - shareOf(w.humidity) * power(w.air)
    return { estimate: factor * moist * (asFloat(w.wind, 'km/h') + addWind) * 1e-6, unit: 'kg/m2/h' }
  }

const menzel: Law = (w) => {
  const psi = (temperature: Temperature) => {
    const pressure = saturationPressure({ temperature })
    // The ranges of this formula lie inside those of the vapour curve.
    return pressure.ok ? toEstimate(pressure.value, 'psi').estimate : 0
  }
  const lack = psi(w.concrete) - shareOf(w.humidity) * psi(w.air)
  return { estimate: 0.44 * lack * (0.253 + 0.096 * asFloat(w.wind, 'mph')), unit: 'lb/ft2/h' }
}

const shareOf = (humidity: Share): number => asFloat(humidity, 'pct') / 100

/** 1 lb/ft²/h in kg/m²/h; the exact constants are 1.8^2.5 · 0.4/1.609344 · this, 32/1.8 and 1.609344/0.4. */
const LB_FT2 = 0.45359237 / 0.3048 ** 2
const FORMS: Readonly<Record<EvaporationForm, { readonly law: Law; readonly source: SourceId }>> = {
  'uno-us': { law: unoUs, source: 'uno-us' },
  'uno-si-rounded': { law: unoSi(5, 18, 4), source: 'uno-si' },
  'uno-si-exact': {
    law: unoSi((1.8 ** 2.5 * 0.4 * LB_FT2) / 1.609344, 32 / 1.8, 1.609344 / 0.4),
    source: 'uno-us',
  },
  menzel: { law: menzel, source: 'menzel' },
}

/** By how much a mix bleeds: the less water comes up, the sooner the surface dries out. */
export type BleedKind = 'plain' | 'silica-fume' | 'overlay'
/** The kind where nobody chose. Source: our choice. */
export const BLEED_KIND: BleedKind = 'plain'

export type Threshold = {
  /** From here on measures are called for. */
  readonly act: Measure<'lb/ft2/h'>
  /** The metric figure as it is printed: a soft conversion (0.2 lb/ft²/h is 0.976). Undefined where none is printed. */
  readonly actSi: Measure<'kg/m2/h'> | undefined
  /** From here on a look-out, as printed and about that in the other system; undefined where no source names one. */
  readonly caution: Measure<'kg/m2/h'> | undefined
  readonly cautionUs: Measure<'lb/ft2/h'> | undefined
  readonly source: SourceId
}

/**
 * Rates from which precautions are taken, by kind of mix. Source: UFGS 03300N and ACI 305R as reproduced (0.2, 1.0);
 * FHWA-HRT-05-038 ch. 5 (0.5 kg/m²/h); silica-fume slides, ch. 4 (half); overlays 0.05 from memory.
 */
export const EVAPORATION_THRESHOLDS: Readonly<Record<BleedKind, Threshold>> = {
  plain: {
    act: exactly('0.2', 'lb/ft2/h'),
    actSi: exactly('1', 'kg/m2/h'),
    caution: exactly('0.5', 'kg/m2/h'),
    cautionUs: exactly('0.1', 'lb/ft2/h'),
    source: 'evaporation-02',
  },
  'silica-fume': {
    act: exactly('0.1', 'lb/ft2/h'),
    actSi: exactly('0.5', 'kg/m2/h'),
    caution: undefined,
    cautionUs: undefined,
    source: 'evaporation-silica',
  },
  overlay: {
    act: exactly('0.05', 'lb/ft2/h'),
    actSi: undefined,
    caution: undefined,
    cautionUs: undefined,
    source: 'evaporation-overlay',
  },
}

export type EvaporationFinding = {
  readonly verdict: Verdict
  readonly threshold: Threshold
  /** What else is uncertain may be more than the distance to the threshold: within ±40 % of it. */
  readonly near: boolean
}

/**
 * A rate beside the threshold of its kind of mix. Below the threshold is inside. Units: any evaporation → finding.
 * Fails: never, of a rate that was worked out. Source: the threshold’s own; ±40 % is Hover’s, as retold in its abstract.
 */
export const evaporationFinding = (rate: Estimate<'lb/ft2/h'>, kind: BleedKind): EvaporationFinding => {
  const threshold = EVAPORATION_THRESHOLDS[kind]
  const act = asFloat(threshold.act, 'lb/ft2/h')
  return {
    verdict: rate.estimate >= act ? 'outside' : 'inside',
    threshold,
    near: rate.estimate * 1.4 >= act && rate.estimate * 0.6 <= act,
  }
}

/** Where wind is measured for these formulas: the mean, not gusts. Source: ACI 305R as retold. */
export const WIND_HEIGHT = {
  metric: exactly('0.5', 'm'),
  us: exactly('20', 'in'),
  use: 'average, not gust',
  source: 'wind-height',
} as const
/** Where stations measure it. Source: WMO-No. 8; from memory. */
export const STATION_HEIGHT = exactly('10', 'm')

export type WindEstimate = {
  readonly wind: Estimate<'mph'>
  readonly factor: number
  readonly isEstimate: true
  readonly source: SourceId
}

/**
 * A station’s wind brought down to the slab. An estimate, and marked so: trees, forms and houses make it another.
 * Units: any speed and heights → mph. Fails: `missing`, `out-of-range` (heights 0.1 to 100 m).
 * Source: 1/7 power law of the wind profile, from memory; heights of ACI 305R (20 in) and of stations (10 m).
 */
export const windAtSlab = (of: {
  readonly wind: Input<Speed>
  readonly measuredAt?: Length
  readonly wantedAt?: Length
}): Result<WindEstimate, TradeProblem> => {
  const read = readAll({
    wind: ask(of.wind, RANGES.wind),
    measuredAt: ask(of.measuredAt ?? STATION_HEIGHT, RANGES.windHeight),
    wantedAt: ask(of.wantedAt ?? WIND_HEIGHT.metric, RANGES.windHeight),
  })
  if (!read.ok) return read
  const factor = (asFloat(read.value.wantedAt, 'm') / asFloat(read.value.measuredAt, 'm')) ** (1 / 7)
  return ok({
    wind: { estimate: asFloat(read.value.wind, 'mph') * factor, unit: 'mph' },
    factor,
    isEstimate: true,
    source: 'power-law',
  })
}
