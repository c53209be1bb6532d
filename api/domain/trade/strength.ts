import { fail, ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { ask, type Input, offCount, offRange, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, overall, type Verdict } from './finding.ts'
import {
  type Area,
  ceiling,
  compareMeasures,
  type Duration,
  exactly,
  type Measure,
  measure,
  type Pressure,
  type Temperature,
  toUnit,
  type Volume,
} from './measure.ts'
import { RANGES } from './ranges.ts'

/** What a strength test is made of. Source: ACI 318-19 §26.12.3.1: two 6×12 or three 4×8 cylinders. */
export type CylinderSize = '6x12' | '4x8'
export const CYLINDERS_A_TEST = { '6x12': 2, '4x8': 3 } as const
export const TEST_AGE = exactly('28', 'd')

export type StrengthTest = {
  readonly mean: Measure<'psi'>
  /** Whether acceptance may rest on it: enough cylinders, at the age that was specified. */
  readonly forAcceptance: boolean
  readonly cylindersNeeded: number
}

/**
 * The mean of a set of cylinders, and whether it is a test in the code’s sense. Units: any pressures, age → psi.
 * Fails: `missing`, `out-of-range` (1 to 12 cylinders). Source: ACI 318-19 §26.12.3.1; the age is 28 days unless
 * another was specified.
 */
export const strengthTest = (of: {
  readonly cylinders: Input<readonly Pressure[]>
  readonly size: CylinderSize
  readonly age: Input<Duration>
  readonly specifiedAge?: Duration
}): Result<StrengthTest, TradeProblem> => {
  const off = offStrengths('/cylinders', of.cylinders, 12) ?? offRange('/age', of.age, RANGES.days)
  if (off || !of.cylinders || !of.age) return off ?? fail('missing', '/cylinders')
  const cylindersNeeded = CYLINDERS_A_TEST[of.size]
  return ok({
    mean: meanOf(of.cylinders),
    forAcceptance:
      of.cylinders.length >= cylindersNeeded && compareMeasures(of.age, of.specifiedAge ?? TEST_AGE) === 0,
    cylindersNeeded,
  })
}

/** Below f′c by so much at most: 500 psi up to 5,000 psi, a tenth of it above. Source: ACI 318-19 §26.12.3.1 (b). */
const PSI_500 = exactly('500', 'psi')
const PSI_5000 = exactly('5000', 'psi')

export type Acceptance = {
  /** Of each three tests in a row; none where there are fewer. */
  readonly runningMeans: readonly Measure<'psi'>[]
  /** (a) every mean of three in a row against f′c. */
  readonly criterionA: Verdict
  /** (b) every single test against its own least. */
  readonly criterionB: Verdict
  readonly leastSingle: Measure<'psi'>
  readonly singles: readonly Finding<'psi'>[]
  readonly overall: Verdict
  /** Never: below (a) the code asks for steps to raise strength, and below (b) to look into the structure. */
  readonly automaticRemoval: false
}

/**
 * Both criteria for a series of tests in the order in which they were made. Units: any pressures → psi and findings.
 * Fails: `missing`, `out-of-range` (1 to 1,000 tests). With fewer than three tests (a) is not recorded.
 * Source: ACI 318-19 §26.12.3.1; the tenth above 5,000 psi from memory.
 */
export const strengthAcceptance = (of: {
  readonly specified: Input<Pressure>
  readonly tests: Input<readonly Pressure[]>
}): Result<Acceptance, TradeProblem> => {
  const off = offRange('/specified', of.specified, RANGES.strength) ?? offStrengths('/tests', of.tests, 1_000)
  if (off || !of.specified || !of.tests) return off ?? fail('missing', '/specified')
  const specified = toUnit(of.specified, 'psi')
  const leastSingle = leastSingleTest(specified)
  const tests = of.tests
  const runningMeans = tests.slice(2).map((_, i) => meanOf(tests.slice(i, i + 3)))
  const ofMeans = runningMeans.map((m) =>
    compareTo('mean of three', m, { least: specified, source: 'aci-318-accept' }),
  )
  const high = compare(specified, PSI_5000) > 0
  const singles = tests.map((test) =>
    compareTo('test', toUnit(test, 'psi'), {
      least: leastSingle,
      source: high ? 'aci-318-high' : 'aci-318-accept',
    }),
  )
  const criterionA = ofMeans.length === 0 ? 'not-recorded' : overall(ofMeans)
  const criterionB = overall(singles)
  return ok({
    runningMeans,
    criterionA,
    criterionB,
    leastSingle,
    singles,
    overall: overall([{ verdict: criterionA }, { verdict: criterionB }]),
    automaticRemoval: false,
  })
}

/**
 * The least that a single test may be. Units: psi → psi. Fails: never, of a strength that was read.
 * Source: ACI 318-19 §26.12.3.1 (b): 500 psi below f′c up to 5,000 psi, a tenth of f′c below it above.
 */
export const leastSingleTest = (specified: Measure<'psi'>): Measure<'psi'> =>
  measure(
    compare(specified, PSI_5000) > 0
      ? over(times(specified, ratio(9n)), ratio(10n))
      : minus(specified, PSI_500),
    'psi',
  )

export type CoreFindings = {
  readonly mean: Finding<'psi'>
  readonly singles: readonly Finding<'psi'>[]
  readonly verdict: Verdict
}

/**
 * Three cores against 85 % of f′c in the mean and 75 % each. Units: any pressures → psi and findings.
 * Fails: `missing`, `out-of-range` (three cores or more). Source: ACI 318-19 §26.12.4, as in ACI’s answers on low strength.
 */
export const coreFindings = (of: {
  readonly specified: Input<Pressure>
  readonly cores: Input<readonly Pressure[]>
}): Result<CoreFindings, TradeProblem> => {
  const off =
    offRange('/specified', of.specified, RANGES.strength) ??
    offCount('/cores', of.cores, 3, 100) ??
    offStrengths('/cores', of.cores, 100)
  if (off || !of.specified || !of.cores) return off ?? fail('missing', '/specified')
  const specified = toUnit(of.specified, 'psi')
  const part = (percent: bigint) => measure(over(times(specified, ratio(percent)), ratio(100n)), 'psi')
  const mean = compareTo('mean', meanOf(of.cores), { least: part(85n), source: 'aci-318-cores' })
  const singles = of.cores.map((core) =>
    compareTo('core', toUnit(core, 'psi'), { least: part(75n), source: 'aci-318-cores' }),
  )
  return ok({ mean, singles, verdict: overall([mean, ...singles]) })
}

/** One test at the least for each day, each so much concrete, each so much slab. Source: ACI 318, frequency of tests. */
export const TEST_RATE = { volume: exactly('150', 'yd3'), area: exactly('5000', 'ft2'), perDay: 1 } as const

/**
 * How many strength tests a day’s placing of one class calls for at the least. Units: any volume and area → count.
 * Fails: `missing`, `out-of-range`. Source: ACI 318 frequency: once a day, each 150 yd³, each 5,000 ft² of slab.
 */
export const testsForDay = (of: {
  readonly volume: Input<Volume>
  readonly area: Input<Area>
}): Result<number, TradeProblem> => {
  const read = readAll({
    volume: ask(of.volume, RANGES.someVolume),
    area: ask(of.area, RANGES.areaOrNone),
  })
  if (!read.ok) return read
  const by = (whole: Ratio, each: Ratio) => Number(ceiling(over(whole, each)))
  return ok(
    Math.max(
      TEST_RATE.perDay,
      by(toUnit(read.value.volume, 'yd3'), TEST_RATE.volume),
      by(toUnit(read.value.area, 'ft2'), TEST_RATE.area),
    ),
  )
}

/** Standard curing of cylinders. Source: ASTM C31/C31M §10.1.2 as quoted; ACI Concrete International. */
export const CYLINDER_CURING = {
  initialLeast: exactly('60', 'degF'),
  initialMost: exactly('80', 'degF'),
  initialWithin: exactly('48', 'h'),
  highStrengthFrom: exactly('6000', 'psi'),
  highLeast: exactly('68', 'degF'),
  highMost: exactly('78', 'degF'),
  finalMiddle: exactly('73.5', 'degF'),
  finalTolerance: exactly('3.5', 'diff-degF'),
  finalWithin: exactly('30', 'min'),
} as const

export type InitialCuring = {
  readonly coldest: Finding<'degF'>
  readonly warmest: Finding<'degF'>
  readonly duration: Finding<'h'>
  readonly verdict: Verdict
}

/**
 * The first days of cylinders: the lowest and the highest temperature around them, and for how long.
 * Units: any → °F, hours. Fails: `missing` (the strength), `out-of-range`. Temperatures that nobody read stay not recorded.
 * Source: ASTM C31/C31M §10.1.2: up to 48 h at 60–80 °F; 68–78 °F from 6,000 psi on.
 */
export const initialCuring = (of: {
  readonly specified: Input<Pressure>
  readonly coldest?: Input<Temperature>
  readonly warmest?: Input<Temperature>
  readonly duration?: Input<Duration>
}): Result<InitialCuring, TradeProblem> => {
  const off =
    offRange('/specified', of.specified, RANGES.strength) ??
    (of.coldest && offRange('/coldest', of.coldest, RANGES.airTemperature)) ??
    (of.warmest && offRange('/warmest', of.warmest, RANGES.airTemperature)) ??
    (of.duration && offRange('/duration', of.duration, RANGES.hours))
  if (off || !of.specified) return off ?? fail('missing', '/specified')
  const c = CYLINDER_CURING
  const high = compareMeasures(of.specified, c.highStrengthFrom) >= 0
  const limit = {
    least: high ? c.highLeast : c.initialLeast,
    most: high ? c.highMost : c.initialMost,
    source: 'c31',
  } as const
  const coldest = compareTo('coldest', of.coldest && toUnit(of.coldest, 'degF'), limit)
  const warmest = compareTo('warmest', of.warmest && toUnit(of.warmest, 'degF'), limit)
  const duration = compareTo('duration', of.duration && toUnit(of.duration, 'h'), {
    most: c.initialWithin,
    source: 'c31',
  })
  return ok({ coldest, warmest, duration, verdict: overall([coldest, warmest]) })
}

/**
 * The temperature of cylinders in final curing. Units: any → finding in °F. Fails: `out-of-range`; one that nobody read
 * stays not recorded. Source: ASTM C31/C31M: 73.5 ± 3.5 °F, begun within 30 min of demolding.
 */
export const finalCuring = (temperature: Input<Temperature>): Result<Finding<'degF'>, TradeProblem> => {
  const off = temperature && offRange('/temperature', temperature, RANGES.airTemperature)
  const { finalMiddle, finalTolerance } = CYLINDER_CURING
  const limit = {
    least: measure(minus(finalMiddle, finalTolerance), 'degF'),
    most: measure(plus(finalMiddle, finalTolerance), 'degF'),
    source: 'c31',
  } as const
  return off ?? ok(compareTo('final curing', temperature && toUnit(temperature, 'degF'), limit))
}

const meanOf = (all: readonly Pressure[]): Measure<'psi'> =>
  measure(over(sum(all.map((one) => toUnit(one, 'psi'))), ratio(BigInt(all.length))), 'psi')

const offStrengths = (at: string, all: Input<readonly Pressure[]>, most: number) => {
  const off = offCount(at, all, 1, most)
  if (off || !all) return off
  for (const [i, one] of all.entries()) {
    const odd = offRange(`${at}/${i}`, one, RANGES.breakStrength)
    if (odd) return odd
  }
  return undefined
}
