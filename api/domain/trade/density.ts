import { fail, ok, type Result } from '../result.ts'
import { minus, over, plus, ratio, sum, times } from '../units.ts'
import { ask, type Input, offCount, offOrder, offRange, readAll, type TradeProblem } from './asked.ts'
import {
  type Density,
  exactly,
  type Mass,
  type Measure,
  measure,
  type Share,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** The steps to which results are reported. Source: ASTM C138/C138M as summarised by a technician’s guide. */
export const DENSITY_REPORT = {
  density: exactly('0.1', 'lb/ft3'),
  yield: exactly('0.01', 'yd3'),
  relativeYield: exactly('0.01', 'one'),
  cement: exactly('1', 'lb/yd3'),
  air: exactly('0.1', 'pct'),
} as const

/** Density tests behind a volume that both sides go by, each from another truck. Source: NRMCA CIP 8. */
export const VOLUME_BASIS = { tests: 3, differentTrucks: true, source: 'cip-8' } as const

/**
 * Density from a filled measure, not rounded. Units: any masses and volume → lb/ft³.
 * Fails: `missing`, `out-of-range`; `contradiction` where the empty measure is no lighter than the full one.
 * Source: ASTM C138/C138M: D = (Mc − Mm) / Vm.
 */
export const density = (of: {
  readonly full: Input<Mass>
  readonly empty: Input<Mass>
  readonly measure: Input<Volume>
}): Result<Measure<'lb/ft3'>, TradeProblem> => {
  const read = readAll({
    full: ask(of.full, RANGES.scaleMass),
    empty: ask(of.empty, RANGES.scaleMass),
    measure: ask(of.measure, RANGES.measureVolume),
  })
  if (!read.ok) return read
  const { full, empty } = read.value
  const off = offOrder(['empty', empty], ['full', full])
  if (off) return off
  const mass = minus(toUnit(full, 'lb'), toUnit(empty, 'lb'))
  return ok(measure(over(mass, toUnit(read.value.measure, 'ft3')), 'lb/ft3'))
}

export type Yield = {
  readonly yield: Measure<'yd3'>
  /** To the design volume; undefined where that is not known. */
  readonly relative: Measure<'one'> | undefined
}

/**
 * Yield of a batch, and relative to its design volume; not rounded. Units: any mass, density, volume → yd³, plain number.
 * Fails: `missing`, `out-of-range`. Source: ASTM C138/C138M: Y = M / (27 D), Ry = Y / Yd.
 */
export const batchYield = (of: {
  readonly batch: Input<Mass>
  readonly density: Input<Density>
  readonly design?: Input<Volume>
}): Result<Yield, TradeProblem> => {
  const read = readAll({
    batch: ask(of.batch, RANGES.someBatch),
    density: ask(of.density, RANGES.concreteDensity),
  })
  if (!read.ok) return read
  const off = of.design && offRange('/design', of.design, RANGES.someVolume)
  if (off) return off
  const volume = over(toUnit(read.value.batch, 'lb'), toUnit(read.value.density, 'lb/yd3'))
  return ok({
    yield: measure(volume, 'yd3'),
    relative: of.design && measure(over(volume, toUnit(of.design, 'yd3')), 'one'),
  })
}

/**
 * Volume that came against the volume that was asked for. Units: any volumes → plain number.
 * Fails: `missing`, `out-of-range`. Source: ASTM C138/C138M: Ry = Y / Yd.
 */
export const relativeYield = (of: {
  readonly actual: Input<Volume>
  readonly design: Input<Volume>
}): Result<Measure<'one'>, TradeProblem> => {
  const read = readAll({
    actual: ask(of.actual, RANGES.someVolume),
    design: ask(of.design, RANGES.someVolume),
  })
  if (!read.ok) return read
  return ok(measure(over(toUnit(read.value.actual, 'yd3'), toUnit(read.value.design, 'yd3')), 'one'))
}

/**
 * Cement in a cubic yard, not rounded. Units: any mass and volume → lb/yd³. Fails: `missing`, `out-of-range`.
 * Source: ASTM C138/C138M: C = Cb / Y.
 */
export const cementContent = (of: {
  readonly cement: Input<Mass>
  readonly yield: Input<Volume>
}): Result<Measure<'lb/yd3'>, TradeProblem> => {
  const read = readAll({
    cement: ask(of.cement, RANGES.someMass),
    yield: ask(of.yield, RANGES.someVolume),
  })
  if (!read.ok) return read
  return ok(measure(over(toUnit(read.value.cement, 'lb'), toUnit(read.value.yield, 'yd3')), 'lb/yd3'))
}

/**
 * Air by weight, not rounded. Units: any densities → per cent. Fails: `missing`, `out-of-range`; `contradiction` where
 * the measured density is above the air-free one. Source: ASTM C138/C138M: A = (T − D) / T × 100; by T, not D.
 */
export const gravimetricAir = (of: {
  readonly airFree: Input<Density>
  readonly density: Input<Density>
}): Result<Measure<'pct'>, TradeProblem> => {
  const read = readAll({
    airFree: ask(of.airFree, RANGES.concreteDensity),
    density: ask(of.density, RANGES.concreteDensity),
  })
  if (!read.ok) return read
  const t = toUnit(read.value.airFree, 'lb/ft3')
  const share = over(minus(t, toUnit(read.value.density, 'lb/ft3')), t)
  if (share.n < 0n) return fail('contradiction', '/density', { below: 'airFree' })
  return ok(measure(times(share, ratio(100n)), 'pct'))
}

/**
 * Air by the pressure meter, less what the aggregate’s own pores take. Units: per cent → per cent, not rounded.
 * Fails: `missing`, `out-of-range`; `contradiction` where the correction is above the reading.
 * Source: ASTM C231/C231M: A = A₁ − G; for dense aggregate alone.
 */
export const pressureAir = (of: {
  readonly apparent: Input<Share>
  readonly correction: Input<Share>
}): Result<Measure<'pct'>, TradeProblem> => {
  const read = readAll({
    apparent: ask(of.apparent, RANGES.air),
    correction: ask(of.correction, RANGES.air),
  })
  if (!read.ok) return read
  const air = minus(read.value.apparent, read.value.correction)
  if (air.n < 0n) return fail('contradiction', '/correction', { below: 'apparent' })
  return ok(measure(air, 'pct'))
}

/** A batch’s volume as both sides go by it, and the tests behind it. */
export type VolumeByDensity = {
  readonly volume: Measure<'yd3'>
  readonly mean: Measure<'lb/ft3'>
  readonly enough: boolean
}

/**
 * A load’s volume from its batched mass and the mean of density tests. Units: any mass and densities → yd³, lb/ft³.
 * Fails: `missing`, `out-of-range` (1 to 20 tests). `enough` is false below three. Source: NRMCA CIP 8: mean of three
 * C138 tests, from three trucks.
 */
export const volumeByDensity = (of: {
  readonly batch: Input<Mass>
  readonly densities: Input<readonly Density[]>
}): Result<VolumeByDensity, TradeProblem> => {
  const off = offRange('/batch', of.batch, RANGES.someBatch) ?? offCount('/densities', of.densities, 1, 20)
  if (off || !of.batch || !of.densities) return off ?? fail('missing', '/batch')
  for (const [i, one] of of.densities.entries()) {
    const odd = offRange(`/densities/${i}`, one, RANGES.concreteDensity)
    if (odd) return odd
  }
  const mean = over(sum(of.densities.map((one) => toUnit(one, 'lb/ft3'))), ratio(BigInt(of.densities.length)))
  const volume = over(toUnit(of.batch, 'lb'), times(mean, ratio(27n)))
  return ok({
    volume: measure(volume, 'yd3'),
    mean: measure(mean, 'lb/ft3'),
    enough: of.densities.length >= VOLUME_BASIS.tests,
  })
}

/**
 * What a change of air does to a cubic yard. Units: per cent (with sign) → ft³ a yd³. Fails: `missing`, `out-of-range`.
 * Source: ASTM C138: 1 % of air is about 0.27 ft³ a yd³ (27 ft³ × 1 %).
 */
export const yieldOfAir = (of: { readonly change: Input<Share> }): Result<Measure<'ft3'>, TradeProblem> => {
  const read = readAll({ change: ask(of.change, RANGES.airChange) })
  return read.ok ? ok(measure(over(times(read.value.change, ratio(27n)), ratio(100n)), 'ft3')) : read
}

/**
 * The mass of a batch from its parts. Units: any masses → pounds. Fails: `missing`, `out-of-range` (1 to 30 parts).
 * Source: ASTM C138: M is the mass of all materials.
 */
export const batchMass = (of: {
  readonly parts: Input<readonly Mass[]>
}): Result<Measure<'lb'>, TradeProblem> => {
  const off = offCount('/parts', of.parts, 1, 30)
  if (off || !of.parts) return off ?? fail('missing', '/parts')
  for (const [i, one] of of.parts.entries()) {
    const odd = offRange(`/parts/${i}`, one, RANGES.batchMass)
    if (odd) return odd
  }
  return ok(measure(of.parts.map((one) => toUnit(one, 'lb')).reduce(plus, ratio(0n)), 'lb'))
}
