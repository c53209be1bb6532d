import { ok, type Result } from '../result.ts'
import { type Input, offRange, type TradeProblem } from './asked.ts'
import { compareTo, type Finding } from './finding.ts'
import {
  type Duration,
  exactly,
  type Length,
  type Measure,
  type Plain,
  roundTo,
  type Share,
  type Temperature,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** Windows of sampling. Source: ASTM C172 as summarised by a technician’s guide; 15 min between portions from memory. */
export const SAMPLING = {
  /** Slump, temperature and air begin within, counted from the last portion. */
  testsWithin: exactly('5', 'min'),
  /** Molding of cylinders begins within, counted from when the composite was made. */
  moldingWithin: exactly('15', 'min'),
  portionsWithin: exactly('15', 'min'),
  leastSample: exactly('1', 'ft3'),
  firstShare: exactly('10', 'pct'),
  lastShare: exactly('10', 'pct'),
  portions: 2,
} as const

/** What is known of how a sample was taken; what is not recorded stays not recorded. */
export type Sampling = {
  readonly betweenPortions?: Input<Duration>
  readonly toTests?: Input<Duration>
  readonly toMolding?: Input<Duration>
  readonly volume?: Input<Volume>
  /** How much of the load was discharged when the first and when the last portion was taken. */
  readonly firstAt?: Input<Share>
  readonly lastAt?: Input<Share>
}

/**
 * How a sample was taken, beside the practice: its times, its size, and where in the load.
 * Units: any times and volumes, per cent → findings. Fails: `out-of-range`.
 * Source: ASTM C172: two or more portions from the middle of the load (not the first or last 10 %), 1 ft³, 5 and 15 min.
 */
export const samplingFindings = (of: Sampling): Result<readonly Finding[], TradeProblem> => {
  const times = { betweenPortions: of.betweenPortions, toTests: of.toTests, toMolding: of.toMolding }
  for (const [name, given] of Object.entries(times)) {
    const off = given && offRange(`/${name}`, given, RANGES.minutes)
    if (off) return off
  }
  const off =
    (of.volume && offRange('/volume', of.volume, RANGES.sample)) ??
    (of.firstAt && offRange('/firstAt', of.firstAt, RANGES.share)) ??
    (of.lastAt && offRange('/lastAt', of.lastAt, RANGES.share))
  if (off) return off
  const min = (m: Input<Duration>) => m && toUnit(m, 'min')
  const middle = { least: SAMPLING.firstShare, most: exactly('90', 'pct'), source: 'c172' } as const
  return ok([
    compareTo('betweenPortions', min(of.betweenPortions), {
      most: SAMPLING.portionsWithin,
      source: 'c172-portions',
    }),
    compareTo('toTests', min(of.toTests), { most: SAMPLING.testsWithin, source: 'c172' }),
    compareTo('toMolding', min(of.toMolding), { most: SAMPLING.moldingWithin, source: 'c172' }),
    compareTo('volume', of.volume && toUnit(of.volume, 'ft3'), {
      least: SAMPLING.leastSample,
      source: 'c172',
    }),
    compareTo('firstAt', of.firstAt, middle),
    compareTo('lastAt', of.lastAt, middle),
  ])
}

/** Source: ASTM C94 as retold in NRMCA CIP 26: slump for adjusting is taken from the first ¼ yd³. */
export const PRELIMINARY_SAMPLE = { most: exactly('0.25', 'yd3'), source: 'cip-26' } as const
/** Source: ASTM C94-98 §16.6 and its 95 % repeatability; a failing slump is tested again on another portion. */
export const CHECK_TEST = { repeatability: exactly('0.83', 'in'), source: 'c94-98-retest' } as const

/**
 * Whether a check test on another portion is called for: where a first one lies outside its limits.
 * Units: any measured value and limit. Fails: never. Source: ASTM C94-98 §16.6 (newer editions ask for a new sample).
 */
export const needsCheckTest = (first: Finding): boolean => first.verdict === 'outside'

/** How a temperature is taken. Source: ASTM C1064/C1064M as summarised; accuracy and step from memory. */
export const TEMPERATURE_TEST = {
  leastCover: exactly('3', 'in'),
  leastTime: exactly('2', 'min'),
  readWithin: exactly('5', 'min'),
  accuracy: exactly('1', 'diff-degF'),
  reportTo: exactly('1', 'degF'),
} as const

export type TemperatureReading = {
  readonly reported: Measure<'degF'>
  readonly cover: Finding<'in'>
  readonly inPlace: Finding<'min'>
  readonly readAfter: Finding<'min'>
}

/**
 * A concrete temperature as it is reported, and how it was taken. Units: any → °F to the degree, inches, minutes.
 * Fails: `missing`, `out-of-range`. Source: ASTM C1064/C1064M: 3 in of cover, 2 min or stable, read within 5 min.
 */
export const temperatureReading = (of: {
  readonly measured: Input<Temperature>
  readonly cover?: Input<Length>
  readonly inPlace?: Input<Duration>
  readonly sinceSampling?: Input<Duration>
}): Result<TemperatureReading, TradeProblem> => {
  const off =
    offRange('/measured', of.measured, RANGES.concreteTemperature) ??
    (of.cover && offRange('/cover', of.cover, RANGES.thicknessOrNone)) ??
    (of.inPlace && offRange('/inPlace', of.inPlace, RANGES.minutes)) ??
    (of.sinceSampling && offRange('/sinceSampling', of.sinceSampling, RANGES.minutes))
  if (off) return off
  const min = (m: Input<Duration>) => m && toUnit(m, 'min')
  return ok({
    reported: roundTo(of.measured as Temperature, TEMPERATURE_TEST.reportTo),
    cover: compareTo('cover', of.cover && toUnit(of.cover, 'in'), {
      least: TEMPERATURE_TEST.leastCover,
      source: 'c1064',
    }),
    inPlace: compareTo('inPlace', min(of.inPlace), { least: TEMPERATURE_TEST.leastTime, source: 'c1064' }),
    readAfter: compareTo('readAfter', min(of.sinceSampling), {
      most: TEMPERATURE_TEST.readWithin,
      source: 'c1064',
    }),
  })
}

/** Turns at mixing speed after site water. Source: ASTM C94, from memory; a plant’s own instruction goes before it. */
export const MIXING_AFTER_WATER = { least: exactly('30', 'one'), source: 'c94-site-water' } as const

/**
 * Drum turns at mixing speed since water went in, beside the least. Units: a count → finding. Fails: `out-of-range`;
 * turns that nobody counted stay not recorded. Source: ASTM C94, 30 turns more, from memory.
 */
export const mixingAfterWater = (turns: Input<Plain>): Result<Finding<'one'>, TradeProblem> => {
  const off = turns && offRange('/turns', turns, RANGES.revolutions)
  return off ?? ok(compareTo('turns since water', turns, MIXING_AFTER_WATER))
}
