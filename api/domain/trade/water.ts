import { fail, ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { ask, type Input, offCount, offRange, readAll, type TradeProblem } from './asked.ts'
import {
  type Density,
  exactly,
  type In,
  type Mass,
  type Measure,
  measure,
  type Plain,
  type Share,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'
import { ratioFromGallons, WATER_WEIGHT, WATER_WEIGHTS } from './water-ratio.ts'

/** The constants of the concrete school’s sums. Source: state concrete school, Level III. */
export const COURSE_CONSTANTS = {
  waterWeight: WATER_WEIGHTS.course,
  waterDensity: exactly('62.4', 'lb/ft3'),
  gallonsPerFoot3: exactly('7.5', 'one'),
  feet3PerYard3: exactly('27', 'one'),
  sack: exactly('94', 'lb'),
} as const

/**
 * Water–cement ratio by mass: all water over all cementitious material, for a batch.
 * Units: any masses → plain number. Fails: `missing`, `out-of-range`. Source: ACI CT, definition of w/cm.
 */
export const waterCementByMass = (of: {
  readonly water: Input<Mass>
  readonly cementitious: Input<Mass>
}): Result<Measure<'one'>, TradeProblem> => {
  const read = readAll({
    water: ask(of.water, RANGES.waterMass),
    cementitious: ask(of.cementitious, RANGES.someMass),
  })
  if (!read.ok) return read
  return ok(measure(over(toUnit(read.value.water, 'lb'), toUnit(read.value.cementitious, 'lb')), 'one'))
}

/**
 * Mass of a volume of water. Units: any volume, lb/gal → pounds. Fails: `missing`, `out-of-range`.
 * Source: volume × weight; the weight is the caller’s choice (`WATER_WEIGHTS`).
 */
export const massOfWater = (of: {
  readonly volume: Input<Volume>
  readonly weight?: Density
}): Result<Measure<'lb'>, TradeProblem> => {
  const read = readAll({
    volume: ask(of.volume, RANGES.waterVolume),
    weight: ask(of.weight ?? WATER_WEIGHT, RANGES.waterWeight),
  })
  if (!read.ok) return read
  return ok(measure(times(toUnit(read.value.volume, 'gal'), toUnit(read.value.weight, 'lb/gal')), 'lb'))
}

export type Allowable = {
  readonly ratio: Measure<'one'>
  /** Below zero where the ratio is above the most already: so much too much went in. */
  readonly more: Measure<'gal/yd3'>
  readonly weight: Measure<'lb/gal'>
}

/**
 * Water that may still go in before the most w/cm is reached. A cross-check: what the ticket prints is the allowance.
 * Units: any contents, lb/gal → plain number and gal/yd³. Fails: `missing`, `out-of-range`.
 * Source: (most w/cm × cementitious − water) ÷ weight of a gallon, by the definition of w/cm.
 */
export const allowableWater = (of: {
  readonly cementitious: Input<Density>
  readonly water: Input<Density>
  readonly mostRatio: Input<Plain>
  readonly weight?: Density
}): Result<Allowable, TradeProblem> => {
  const read = readAll({
    cementitious: ask(of.cementitious, RANGES.content),
    water: ask(of.water, RANGES.waterContent),
    mostRatio: ask(of.mostRatio, RANGES.ratio),
    weight: ask(of.weight ?? WATER_WEIGHT, RANGES.waterWeight),
  })
  if (!read.ok) return read
  const cement = toUnit(read.value.cementitious, 'lb/yd3')
  const water = toUnit(read.value.water, 'lb/yd3')
  const weight = toUnit(read.value.weight, 'lb/gal')
  const room = minus(times(read.value.mostRatio, cement), water)
  return ok({
    ratio: measure(over(water, cement), 'one'),
    more: measure(over(room, weight), 'gal/yd3'),
    weight,
  })
}

/** Water that went in while so much concrete was in the drum. */
export type Addition = { readonly water: Volume; readonly inDrum: Volume }
/** What was placed between two additions, and the w/cm that it had. */
export type PartPlaced = {
  readonly placed: Measure<'yd3'>
  readonly water: Measure<'gal/yd3'>
  readonly ratio: Measure<'one'>
}

/**
 * The w/cm of each part of a load: before and after each addition, in the order in which they went in. Water goes into
 * what is in the drum then, and never into what has left it.
 * Units: any volumes and contents, lb/gal → yd³, gal/yd³, plain number.
 * Fails: `missing`, `out-of-range`; `contradiction` where the drum held more than was left of the load.
 * Source: mass balance over the drum (arithmetic); definition of w/cm.
 */
export const ratiosByPart = (of: {
  readonly load: Input<Volume>
  readonly batchedWater: Input<Volume>
  readonly cementitious: Input<Density>
  readonly additions: Input<readonly Addition[]>
  readonly weight?: Density
}): Result<readonly PartPlaced[], TradeProblem> => {
  const read = readAll({
    load: ask(of.load, RANGES.load),
    batchedWater: ask(of.batchedWater, RANGES.waterVolume),
    cementitious: ask(of.cementitious, RANGES.content),
    weight: ask(of.weight ?? WATER_WEIGHT, RANGES.waterWeight),
  })
  if (!read.ok) return read
  const off = offCount('/additions', of.additions, 0, 50)
  if (off || !of.additions) return off ?? fail('missing', '/additions')
  const cement = toUnit(read.value.cementitious, 'lb/yd3')
  const weight = toUnit(read.value.weight, 'lb/gal')
  const part = (placed: Ratio, perYard: Ratio): PartPlaced => ({
    placed: measure(placed, 'yd3'),
    water: measure(perYard, 'gal/yd3'),
    ratio: measure(ratioFromGallons(perYard, cement, weight), 'one'),
  })
  let drum: Ratio = toUnit(read.value.load, 'yd3')
  let perYard = over(toUnit(read.value.batchedWater, 'gal'), drum)
  const parts: PartPlaced[] = []
  for (const [i, { water, inDrum }] of of.additions.entries()) {
    const odd =
      offRange(`/additions/${i}/water`, water, RANGES.waterVolume) ??
      offRange(`/additions/${i}/inDrum`, inDrum, RANGES.someVolume)
    if (odd) return odd
    const held = toUnit(inDrum, 'yd3')
    const placed = minus(drum, held)
    if (placed.n < 0n) return fail('contradiction', `/additions/${i}/inDrum`)
    if (placed.n > 0n) parts.push(part(placed, perYard))
    drum = held
    perYard = plus(perYard, over(toUnit(water, 'gal'), held))
  }
  return ok([...parts, part(drum, perYard)])
}

/**
 * A concrete’s w/cm when some more gallons go into each yard. Units: any, lb/gal → plain number.
 * Fails: `missing`, `out-of-range`. Source: definition of w/cm; it rises with each gallon.
 */
export const ratioAfter = (of: {
  readonly cementitious: Input<Density>
  readonly water: Input<Density>
  readonly added: Input<In<'water-per-concrete'>>
  readonly weight?: Density
}): Result<Measure<'one'>, TradeProblem> => {
  const read = readAll({
    cementitious: ask(of.cementitious, RANGES.content),
    water: ask(of.water, RANGES.waterContent),
    added: ask(of.added, RANGES.perConcrete),
    weight: ask(of.weight ?? WATER_WEIGHT, RANGES.waterWeight),
  })
  if (!read.ok) return read
  const added = times(toUnit(read.value.added, 'gal/yd3'), toUnit(read.value.weight, 'lb/gal'))
  const all = plus(toUnit(read.value.water, 'lb/yd3'), added)
  return ok(measure(over(all, toUnit(read.value.cementitious, 'lb/yd3')), 'one'))
}

export type WaterNeeded = {
  readonly mass: Measure<'lb'>
  readonly volume: Measure<'gal'>
  readonly weight: Measure<'lb/gal'>
}

/**
 * All water of a batch that has a w/cm. Units: a plain number, any mass, lb/gal → pounds and gallons.
 * Fails: `missing`, `out-of-range`. Source: w/cm × cementitious, by the definition of w/cm.
 */
export const waterForRatio = (of: {
  readonly ratio: Input<Plain>
  readonly cementitious: Input<Mass>
  readonly weight?: Density
}): Result<WaterNeeded, TradeProblem> => {
  const read = readAll({
    ratio: ask(of.ratio, RANGES.ratio),
    cementitious: ask(of.cementitious, RANGES.someMass),
    weight: ask(of.weight ?? WATER_WEIGHT, RANGES.waterWeight),
  })
  if (!read.ok) return read
  const weight = toUnit(read.value.weight, 'lb/gal')
  const mass = measure(times(read.value.ratio, toUnit(read.value.cementitious, 'lb')), 'lb')
  return ok({ mass, volume: measure(over(mass, weight), 'gal'), weight })
}

/** All water of a batch; each part where it is printed, and zero only where somebody said zero. */
export type WaterParts = {
  readonly metered: Input<Mass>
  readonly freeMoisture: Input<Mass>
  readonly ice: Input<Mass>
  readonly wash: Input<Mass>
  readonly site: Input<Mass>
}

/**
 * All mixing water: metered, free on the aggregate, ice, wash water that was left in the drum, and site water.
 * Units: any masses → pounds. Fails: `missing`, `out-of-range`: a part that nobody recorded is not zero.
 * Source: ASTM C94, total mixing water, as retold in NRMCA CIP 26.
 */
export const totalWater = (of: WaterParts): Result<Measure<'lb'>, TradeProblem> => {
  const read = readAll({
    metered: ask(of.metered, RANGES.waterMass),
    freeMoisture: ask(of.freeMoisture, RANGES.waterMass),
    ice: ask(of.ice, RANGES.waterMass),
    wash: ask(of.wash, RANGES.waterMass),
    site: ask(of.site, RANGES.waterMass),
  })
  if (!read.ok) return read
  return ok(measure(sum(Object.values(read.value).map((m) => toUnit(m, 'lb'))), 'lb'))
}

export type Moisture = {
  /** Below zero where the aggregate is drier than saturated surface-dry, and takes water. */
  readonly free: Measure<'pct'>
  readonly water: Measure<'lb'>
  /** What is weighed out, moisture and all. */
  readonly batch: Measure<'lb'>
}

/**
 * Free water on an aggregate, and what to weigh out of it. Units: any mass, per cent → per cent and pounds.
 * Fails: `missing`, `out-of-range`.
 * Source: concrete school, water and cement: free = total − absorption, of the saturated surface-dry mass.
 */
export const freeMoisture = (of: {
  readonly ssd: Input<Mass>
  readonly total: Input<Share>
  readonly absorption: Input<Share>
}): Result<Moisture, TradeProblem> => {
  const read = readAll({
    ssd: ask(of.ssd, RANGES.someMass),
    total: ask(of.total, RANGES.moisture),
    absorption: ask(of.absorption, RANGES.moisture),
  })
  if (!read.ok) return read
  const ssd = toUnit(read.value.ssd, 'lb')
  const free = minus(toUnit(read.value.total, 'pct'), toUnit(read.value.absorption, 'pct'))
  const water = over(times(ssd, free), ratio(100n))
  return ok({
    free: measure(free, 'pct'),
    water: measure(water, 'lb'),
    batch: measure(plus(ssd, water), 'lb'),
  })
}

/** Whether more went in than the ticket allows. Zero over where not. Source: the ticket. */
export type AllowanceUse = { readonly left: Measure<'gal'>; readonly over: Measure<'gal'> }

/**
 * Gallons that went in against the gallons that the ticket allows. Units: any volumes → gallons.
 * Fails: `missing` (an allowance that is not on the ticket is not made up), `out-of-range`. Source: the ticket.
 */
export const allowanceUse = (of: {
  readonly allowed: Input<Volume>
  readonly added: Input<Volume>
}): Result<AllowanceUse, TradeProblem> => {
  const read = readAll({
    allowed: ask(of.allowed, RANGES.waterVolume),
    added: ask(of.added, RANGES.waterVolume),
  })
  if (!read.ok) return read
  const left = minus(toUnit(read.value.allowed, 'gal'), toUnit(read.value.added, 'gal'))
  const notBelow = (r: Ratio) => measure(compare(r, ZERO) < 0 ? ZERO : r, 'gal')
  return ok({ left: notBelow(left), over: notBelow(minus(ZERO, left)) })
}

const ZERO = ratio(0n)
