import { fail, ok, type Result } from '../result.ts'
import { minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { ask, type Input, offRange, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit, overall, type Verdict } from './finding.ts'
import {
  compareMeasures,
  exactly,
  type Length,
  type Mass,
  type Measure,
  measure,
  type Pressure,
  toUnit,
} from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** Freeze–thaw classes. Source: ACI 318-19: F0 no cycles; F1 limited water; F2 frequent water; F3 with deicers. */
export type FreezeClass = 'F0' | 'F1' | 'F2' | 'F3'
/** Whose table. The older one has 0.45 and 4,500 psi for all of F1 to F3; ACI 318-19 (the default) differs at both ends. */
export type ExposureTable = 'ACI 318-19' | 'PCA EB001 Table 11-3'
export const EXPOSURE_TABLE: ExposureTable = 'ACI 318-19'

export type MixLimits = {
  readonly ratio: Limit<'one'> | undefined
  readonly strength: Limit<'psi'>
}

const limits = (ratioText: string | undefined, psi: string, source: SourceId): MixLimits => ({
  ratio: ratioText === undefined ? undefined : { most: exactly(ratioText, 'one'), source },
  strength: { least: exactly(psi, 'psi'), source },
})

/** Source: ACI 318-14/-19 Table 19.3.2.1 from memory (F1 3,500 seen); PCA EB001 Table 11-3 read. */
const EXPOSURE: Readonly<Record<ExposureTable, Readonly<Record<FreezeClass, MixLimits>>>> = {
  'ACI 318-19': {
    F0: limits(undefined, '2500', 'aci-318-19'),
    F1: limits('0.55', '3500', 'aci-318-19'),
    F2: limits('0.45', '4500', 'aci-318-19'),
    F3: limits('0.4', '5000', 'aci-318-19'),
  },
  'PCA EB001 Table 11-3': {
    F0: limits(undefined, '2500', 'pca-11-3'),
    F1: limits('0.45', '4500', 'pca-11-3'),
    F2: limits('0.45', '4500', 'pca-11-3'),
    F3: limits('0.45', '4500', 'pca-11-3'),
  },
}
/** Plain concrete in F3 may keep these. Source: ACI 318-19, from memory. */
const F3_PLAIN = limits('0.45', '4500', 'aci-318-19')

/**
 * The most w/cm and the least f′c of a freeze–thaw class, by table. Units: none → plain number, psi. Fails: never; the
 * types admit known rows alone. Source: ACI 318-14/-19 Table 19.3.2.1 (from memory); PCA EB001 Table 11-3.
 */
export const exposureLimits = (of: {
  readonly class: FreezeClass
  readonly table?: ExposureTable
  readonly plain?: boolean
}): MixLimits => {
  const table = of.table ?? EXPOSURE_TABLE
  return of.class === 'F3' && of.plain === true && table === 'ACI 318-19'
    ? F3_PLAIN
    : EXPOSURE[table][of.class]
}

/** By what concrete meets, in PCA’s words. Source: PCA Design and Control, Table 9-1. */
export type Exposure = 'water' | 'freezing-or-deicers' | 'chlorides'
const PCA_9_1: Readonly<Record<Exposure, MixLimits>> = {
  water: limits('0.5', '4000', 'pca-9-1'),
  'freezing-or-deicers': limits('0.45', '4500', 'pca-9-1'),
  chlorides: limits('0.4', '5000', 'pca-9-1'),
}

/**
 * The most w/cm and the least f′c by what the concrete meets. Units: none → plain number, psi. Fails: never.
 * Source: PCA Design and Control, Table 9-1.
 */
export const exposureByPca = (exposure: Exposure): MixLimits => PCA_9_1[exposure]

/** How hard it freezes, by the table of air. ACI 318 F1 takes moderate, F2 and F3 severe (from memory). */
export type FrostGrade = 'mild' | 'moderate' | 'severe'

/** By nominal maximum stone. Source: ACI 211.1 as reproduced in a course; older ACI 301 ranges through UFGS 03311 Table 3. */
const AIR_ROWS = [
  { stone: '3/8', mild: '4.5', moderate: '6', severe: '7.5', older: ['6', '10'] },
  { stone: '1/2', mild: '4', moderate: '5.5', severe: '7', older: ['5', '9'] },
  { stone: '3/4', mild: '3.5', moderate: '5', severe: '6', older: ['4', '8'] },
  { stone: '1', mild: '3', moderate: '4.5', severe: '6', older: ['3.5', '6.5'] },
  { stone: '1 1/2', mild: '2.5', moderate: '4.5', severe: '5.5', older: ['3', '6'] },
  { stone: '2', mild: '2', moderate: '4', severe: '5', older: undefined },
  { stone: '3', mild: '1.5', moderate: '3.5', severe: '4.5', older: undefined },
] as const

export type TotalAir = {
  readonly mild: Measure<'pct'>
  readonly moderate: Measure<'pct'>
  readonly severe: Measure<'pct'>
  /** The older ranges; undefined where that table had no row. */
  readonly older: Limit<'pct'> | undefined
  readonly source: SourceId
}

/** How much lower air may be above 5,000 psi, and from where. Source: project specification and trade answer. */
export const AIR_ABOVE_5000 = {
  from: exactly('5000', 'psi'),
  less: exactly('1', 'pct'),
  source: 'air-over-5000',
} as const

/**
 * Total air by nominal maximum stone. Units: any length → per cent. Fails: `missing`, `out-of-range` (a stone that is no
 * row of the table: ⅜, ½, ¾, 1, 1½, 2, 3 in); where f′c is above 5,000 psi each is one point lower.
 * Source: ACI 211.1 as reproduced; UFGS 03311 Table 3 (older ACI 301).
 */
export const totalAir = (of: {
  readonly stone: Input<Length>
  readonly specified?: Input<Pressure>
}): Result<TotalAir, TradeProblem> => {
  const off =
    offRange('/stone', of.stone, RANGES.aggregate) ??
    (of.specified && offRange('/specified', of.specified, RANGES.strength))
  if (off || !of.stone) return off ?? fail('missing', '/stone')
  const stone = of.stone
  const row = AIR_ROWS.find((one) => compareMeasures(exactly(one.stone, 'in'), stone) === 0)
  if (!row) return fail('out-of-range', '/stone', { known: AIR_ROWS.map((one) => one.stone).join(', ') })
  const lower = of.specified && compareMeasures(of.specified, AIR_ABOVE_5000.from) > 0
  const air = (text: string) =>
    lower ? measure(minus(exactly(text, 'pct'), AIR_ABOVE_5000.less), 'pct') : exactly(text, 'pct')
  return ok({
    mild: air(row.mild),
    moderate: air(row.moderate),
    severe: air(row.severe),
    older: row.older && {
      least: exactly(row.older[0], 'pct'),
      most: exactly(row.older[1], 'pct'),
      source: 'ufgs-03311',
    },
    source: 'aci-211',
  })
}

/** Most of each in all cementitious material. Source: ACI 318 F3 through UFGS 03311 2.2 (c); the two sums from memory. */
export const F3_CEMENTITIOUS = {
  flyAsh: { most: exactly('25', 'pct'), source: 'aci-318-f3' },
  slag: { most: exactly('50', 'pct'), source: 'aci-318-f3' },
  silicaFume: { most: exactly('10', 'pct'), source: 'aci-318-f3' },
  leastPortland: { least: exactly('50', 'pct'), source: 'aci-318-f3' },
  all: { most: exactly('50', 'pct'), source: 'aci-318-f3-sum' },
  flyAshAndSilica: { most: exactly('35', 'pct'), source: 'aci-318-f3-sum' },
} as const

export type CementitiousFindings = {
  readonly flyAsh: Finding<'pct'>
  readonly slag: Finding<'pct'>
  readonly silicaFume: Finding<'pct'>
  readonly all: Finding<'pct'>
  readonly flyAshAndSilica: Finding<'pct'>
  readonly verdict: Verdict
}

/**
 * Each supplementary material as a share of all cementitious material, beside class F3’s most. Units: any masses → per
 * cent and findings. Fails: `missing`, `out-of-range`. Source: ACI 318 F3 through UFGS 03311 2.2 (c): fly ash 25, slag
 * 50, silica fume 10; all three 50 and fly ash with silica fume 35 from memory.
 */
export const cementitiousFindings = (of: {
  readonly cement: Input<Mass>
  readonly flyAsh: Input<Mass>
  readonly slag: Input<Mass>
  readonly silicaFume: Input<Mass>
}): Result<CementitiousFindings, TradeProblem> => {
  const read = readAll({
    cement: ask(of.cement, RANGES.someMass),
    flyAsh: ask(of.flyAsh, RANGES.batchMass),
    slag: ask(of.slag, RANGES.batchMass),
    silicaFume: ask(of.silicaFume, RANGES.batchMass),
  })
  if (!read.ok) return read
  const ash = toUnit(read.value.flyAsh, 'lb')
  const slag = toUnit(read.value.slag, 'lb')
  const fume = toUnit(read.value.silicaFume, 'lb')
  const whole = sum([toUnit(read.value.cement, 'lb'), ash, slag, fume])
  const share = (part: Ratio) => measure(times(over(part, whole), ratio(100n)), 'pct')
  const f = F3_CEMENTITIOUS
  const findings = {
    flyAsh: compareTo('fly ash', share(ash), f.flyAsh),
    slag: compareTo('slag', share(slag), f.slag),
    silicaFume: compareTo('silica fume', share(fume), f.silicaFume),
    all: compareTo('all three', share(sum([ash, slag, fume])), f.all),
    flyAshAndSilica: compareTo('fly ash and silica fume', share(plus(ash, fume)), f.flyAshAndSilica),
  }
  return ok({ ...findings, verdict: overall(Object.values(findings)) })
}

/** Where in a house, in the code’s rows. Source: IRC 2009/2012 Table R402.2, two reproductions. */
export type HousePlace = 'not-exposed' | 'interior-slab' | 'vertical-exposed' | 'flatwork-exposed'
export type Weathering = 'negligible' | 'moderate' | 'severe'
const R402_2 = {
  'not-exposed': { negligible: '2500', moderate: '2500', severe: '2500' },
  'interior-slab': { negligible: '2500', moderate: '2500', severe: '2500' },
  'vertical-exposed': { negligible: '2500', moderate: '3000', severe: '3000' },
  'flatwork-exposed': { negligible: '2500', moderate: '3000', severe: '3500' },
} as const
/** Air where the code requires it. Source: IRC 2009/2012 Table R402.2, note. */
export const IRC_AIR = {
  least: exactly('5', 'pct'),
  most: exactly('7', 'pct'),
  source: 'irc-r402-2',
} as const

/**
 * The least f′c of a place in a house by weathering; `flatwork-exposed` is porches, carport slabs and steps exposed to
 * weather, and garage floors. Local codes amend it. Units: none → psi. Fails: never.
 * Source: IRC 2009/2012 Table R402.2.
 */
export const houseStrength = (place: HousePlace, weathering: Weathering): Limit<'psi'> => ({
  least: exactly(R402_2[place][weathering], 'psi'),
  source: 'irc-r402-2',
})
