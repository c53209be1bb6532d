import { ok, type Result } from '../result.ts'
import { over, ratio, times } from '../units.ts'
import { ask, type Input, readAll, type TradeProblem } from './asked.ts'
import {
  ceiling,
  type Density,
  exactly,
  type Mass,
  type Measure,
  measure,
  type Plain,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** A sack of cement, as the trade counts. Source: concrete school Level III; 94 lb. */
export const SACK = exactly('94', 'lb')

export type BatchMasses = {
  readonly sacks: Measure<'one'>
  /** Whole sacks: none is opened for a part. */
  readonly wholeSacks: number
  readonly cement: Measure<'lb'>
  readonly coarse: Measure<'lb'>
  readonly fine: Measure<'lb'>
  readonly water: Measure<'gal'>
}

/**
 * Materials for a volume by a mix that is stated per cubic yard. Units: any volume, sacks per yd³, any content per
 * volume, gallons per sack → pounds and gallons; water by the whole sacks. Fails: `missing`, `out-of-range`.
 * Source: US Army correspondence course EN5466A (sacks rounded up, water by the sack).
 */
export const batchMasses = (of: {
  readonly volume: Input<Volume>
  readonly sacksPerYard: Input<Plain>
  readonly coarse: Input<Density>
  readonly fine: Input<Density>
  readonly gallonsPerSack: Input<Volume>
}): Result<BatchMasses, TradeProblem> => {
  const read = readAll({
    volume: ask(of.volume, RANGES.someVolume),
    sacksPerYard: ask(of.sacksPerYard, RANGES.sacks),
    coarse: ask(of.coarse, RANGES.aggregateContent),
    fine: ask(of.fine, RANGES.aggregateContent),
    gallonsPerSack: ask(of.gallonsPerSack, RANGES.waterVolume),
  })
  if (!read.ok) return read
  const volume = toUnit(read.value.volume, 'yd3')
  const sacks = times(volume, read.value.sacksPerYard)
  const whole = ceiling(sacks)
  const pounds = (content: Density) => measure(times(volume, toUnit(content, 'lb/yd3')), 'lb')
  return ok({
    sacks: measure(sacks, 'one'),
    wholeSacks: Number(whole),
    cement: measure(times(sacks, SACK), 'lb'),
    coarse: pounds(read.value.coarse),
    fine: pounds(read.value.fine),
    water: measure(times(ratio(whole), toUnit(read.value.gallonsPerSack, 'gal')), 'gal'),
  })
}

/** Fresh concrete from one bag of dry mix, in cubic feet per pound: 0.6 ft³ from 80 lb. Source: general estimating references. */
const FEET3_PER_POUND = ratio(6n, 800n)

export type Bags = {
  readonly perBag: Measure<'ft3'>
  readonly perYard: Measure<'one'>
  readonly bags: number
}

/**
 * Bags of dry mix for a volume. Units: any mass and volume → ft³ a bag, bags a yd³, whole bags.
 * Fails: `missing`, `out-of-range` (bags of 20 to 100 lb). Source: general estimating references: 80 lb give 0.6 ft³, 60 lb 0.45 ft³.
 */
export const bagsFor = (of: {
  readonly bag: Input<Mass>
  readonly volume: Input<Volume>
}): Result<Bags, TradeProblem> => {
  const read = readAll({ bag: ask(of.bag, RANGES.bag), volume: ask(of.volume, RANGES.someVolume) })
  if (!read.ok) return read
  const perBag = times(toUnit(read.value.bag, 'lb'), FEET3_PER_POUND)
  return ok({
    perBag: measure(perBag, 'ft3'),
    perYard: measure(over(ratio(27n), perBag), 'one'),
    bags: Number(ceiling(over(toUnit(read.value.volume, 'ft3'), perBag))),
  })
}

/**
 * Part of a dry-rodded aggregate’s volume that is solid. Units: any densities and a specific gravity → plain number.
 * Fails: `missing`, `out-of-range`. Source: concrete school, water and cement: dry-rodded density ÷ (specific gravity ×
 * density of water).
 */
export const solidFraction = (of: {
  readonly dryRodded: Input<Density>
  readonly specificGravity: Input<Plain>
  readonly water: Input<Density>
}): Result<Measure<'one'>, TradeProblem> => {
  const read = readAll({
    dryRodded: ask(of.dryRodded, RANGES.dryRodded),
    specificGravity: ask(of.specificGravity, RANGES.specificGravity),
    water: ask(of.water, RANGES.waterDensity),
  })
  if (!read.ok) return read
  const solid = times(read.value.specificGravity, toUnit(read.value.water, 'lb/ft3'))
  return ok(measure(over(toUnit(read.value.dryRodded, 'lb/ft3'), solid), 'one'))
}
