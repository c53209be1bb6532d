import { fail, ok, type Result } from '../result.ts'
import { compare, over, ratio, times } from '../units.ts'
import { ask, type Input, offRange, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit } from './finding.ts'
import { compareMeasures, exactly, type Length, type Measure, measure, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/**
 * Whose cap on 24–36 thicknesses: 18 ft in ACI 302.1R-96 (the default), 15 ft as the trade has it (from memory), 5 m in
 * CSA A23.1-94, or none.
 */
export type SpacingCap = '302.1r-96' | 'trade' | 'csa' | 'none'
export const SPACING_CAP: SpacingCap = '302.1r-96'
export const SPACING_CAPS: Readonly<
  Record<SpacingCap, { readonly most: Length | undefined; readonly source: SourceId }>
> = {
  '302.1r-96': { most: exactly('18', 'ft'), source: '302.1r-96' },
  trade: { most: exactly('15', 'ft'), source: 'joint-15' },
  csa: { most: exactly('5', 'm'), source: 'csa-a23.1-94' },
  none: { most: undefined, source: '302.1r-96' },
}

export type JointSpacing = {
  readonly least: Measure<'ft'>
  readonly most: Measure<'ft'>
  readonly cap: Measure<'ft'> | undefined
  /** The most, or the cap where that is less: what a layout goes by. */
  readonly mostUnderCap: Measure<'ft'>
  readonly source: SourceId
}

/**
 * Contraction joints by thickness; the cap is told apart, since thick slabs run into it.
 * Units: any length → feet. Fails: `missing`, `out-of-range`.
 * Source: ACI 302.1R-96, 24 to 36 thicknesses, not over 18 ft; CSA A23.1-94 §20.2, the same, not over 5 m; the trade’s
 * 15 ft from memory.
 */
export const jointSpacing = (of: {
  readonly thickness: Input<Length>
  readonly cap?: SpacingCap
}): Result<JointSpacing, TradeProblem> => {
  const read = readAll({ thickness: ask(of.thickness, RANGES.thickness) })
  if (!read.ok) return read
  const { most: cap, source } = SPACING_CAPS[of.cap ?? SPACING_CAP]
  const capFt = cap && toUnit(cap, 'ft')
  const thicknesses = (n: bigint) => measure(times(toUnit(read.value.thickness, 'ft'), ratio(n)), 'ft')
  const most = thicknesses(36n)
  const mostUnderCap = capFt && compare(most, capFt) > 0 ? capFt : most
  return ok({ least: thicknesses(24n), most, cap: capFt, mostUnderCap, source })
}

/** Which column of PCA’s table: a slump of 3–5 in with small or large stone, or a slump below 4 in. */
export type PcaMix = 'slump-3-5-small-stone' | 'slump-3-5-large-stone' | 'slump-below-4'
/** Feet by thickness. Source: PCA table in Beall 2004, Fig. 2-15. */
const PCA_SPACING = {
  4: { 'slump-3-5-small-stone': '8', 'slump-3-5-large-stone': '10', 'slump-below-4': '12' },
  5: { 'slump-3-5-small-stone': '10', 'slump-3-5-large-stone': '13', 'slump-below-4': '15' },
  6: { 'slump-3-5-small-stone': '12', 'slump-3-5-large-stone': '15', 'slump-below-4': '18' },
} as const
/** Feet by thickness. Source: Illinois Ready Mixed Concrete Association, pavement joints. */
const IRMCA_SPACING = { 4: '10', 5: '12', 6: '15' } as const

/**
 * The most spacing in PCA’s table. Units: any length → feet. Fails: `missing`, `out-of-range` (its rows are 4, 5 and 6 in).
 * Source: PCA table in Beall 2004, Fig. 2-15; stone below ¾ in is small.
 */
export const pcaSpacing = (thickness: Input<Length>, mix: PcaMix): Result<Limit<'ft'>, TradeProblem> => {
  const row = rowOf(thickness)
  return row.ok ? ok({ most: exactly(PCA_SPACING[row.value][mix], 'ft'), source: 'pca-joints' }) : row
}

/** A pavement’s transverse joints. Source: Illinois Ready Mixed Concrete Association. */
export type PavementJoints = { readonly spacing: Limit<'ft'>; readonly depth: Limit<'one'> }

/**
 * Transverse joints of pavement, and their least depth as a share of the thickness. Units: any length → feet, share.
 * Fails: `missing`, `out-of-range` (its rows are 4, 5 and 6 in).
 * Source: Illinois Ready Mixed Concrete Association, pavement joints: 10, 12, 15 ft; a quarter deep.
 */
export const pavementJoints = (thickness: Input<Length>): Result<PavementJoints, TradeProblem> => {
  const row = rowOf(thickness)
  if (!row.ok) return row
  return ok({
    spacing: { most: exactly(IRMCA_SPACING[row.value], 'ft'), source: 'irmca' },
    depth: { least: exactly('1/4', 'one'), source: 'irmca' },
  })
}

const rowOf = (thickness: Input<Length>): Result<4 | 5 | 6, TradeProblem> => {
  const off = offRange('/thickness', thickness, RANGES.thickness)
  if (off || !thickness) return off ?? fail('missing', '/thickness')
  const row = ([4, 5, 6] as const).find((n) => compareMeasures(exactly(String(n), 'in'), thickness) === 0)
  return row ? ok(row) : fail('out-of-range', '/thickness', { known: '4 in, 5 in, 6 in' })
}

/** How a joint is made: by hand or with a common saw, or with an early-entry saw. */
export type JointTool = 'conventional' | 'early-entry'
/** The least depth of a joint as a share of the thickness. Source: ACI FAQ 915 (ACI 302.1R-15). */
export const JOINT_DEPTH = { share: exactly('1/4', 'one'), source: 'faq-915' } as const
/** What early-entry saws cut at least. Source: common, from memory. */
const EARLY_ENTRY_DEPTH = exactly('1', 'in')

/**
 * The least depth of a joint: a quarter of the slab by saw or groover; 1 in by early entry. Units: any length → inches.
 * Fails: `missing`, `out-of-range`. Source: ACI FAQ 915 (t/4); early entry’s 1 in from memory.
 */
export const jointDepth = (of: {
  readonly thickness: Input<Length>
  readonly tool?: JointTool
}): Result<Limit<'in'> & { readonly least: Measure<'in'> }, TradeProblem> => {
  const read = readAll({ thickness: ask(of.thickness, RANGES.thickness) })
  if (!read.ok) return read
  if (of.tool === 'early-entry') return ok({ least: EARLY_ENTRY_DEPTH, source: 'early-entry' })
  const least = measure(times(toUnit(read.value.thickness, 'in'), JOINT_DEPTH.share), 'in')
  return ok({ least, source: 'faq-915' })
}

/** Long side to short side of a panel, and for army floors its area. Sources: Basham; TM 5-809-1 / AFM 88-3 ch. 15. */
export const PANEL_LIMITS = {
  ratio: { most: exactly('1.5', 'one'), source: 'joint-aspect' },
  preferred: { most: exactly('1.25', 'one'), source: 'joint-aspect' },
  military: { most: exactly('1.25', 'one'), source: 'tm-5-809-1' },
  militaryArea: { most: exactly('600', 'ft2'), source: 'tm-5-809-1' },
} as const

export type PanelFindings = {
  readonly ratio: Finding<'one'>
  readonly preferred: Finding<'one'>
  readonly area: Measure<'ft2'>
}

/**
 * A panel’s long side to its short one. Units: any lengths → plain number, ft². Fails: `missing`, `out-of-range`.
 * Source: Basham, rules for contraction joints: not above 1.5, better not above 1.25.
 */
export const panelFindings = (of: {
  readonly one: Input<Length>
  readonly other: Input<Length>
}): Result<PanelFindings, TradeProblem> => {
  const read = readAll({ one: ask(of.one, RANGES.panel), other: ask(of.other, RANGES.panel) })
  if (!read.ok) return read
  const [a, b] = [toUnit(read.value.one, 'ft'), toUnit(read.value.other, 'ft')]
  const aspect = measure(compare(a, b) >= 0 ? over(a, b) : over(b, a), 'one')
  return ok({
    ratio: compareTo('long to short', aspect, PANEL_LIMITS.ratio),
    preferred: compareTo('long to short, preferred', aspect, PANEL_LIMITS.preferred),
    area: measure(times(a, b), 'ft2'),
  })
}

/** Walks and curbs of a federal guide. Source: UFGS 03300N. */
export const UFGS_WALK = {
  thickness: exactly('4', 'in'),
  spacing: exactly('5', 'ft'),
  depth: exactly('1', 'in'),
  expansion: exactly('50', 'ft'),
  source: 'ufgs-walks',
} as const
export const UFGS_CURB = {
  spacing: exactly('10', 'ft'),
  depth: exactly('3/4', 'in'),
  expansion: exactly('100', 'ft'),
  source: 'ufgs-walks',
} as const
/** What walks are not jointed farther apart than. Source: contractor licence exam notes. */
export const WALK_CAP = exactly('6', 'ft')

/**
 * Joints of a walk: as far apart as it is wide, not over 6 ft. Units: any length → feet. Fails: `missing`, `out-of-range`.
 * Source: contractor licence exam notes; crews joint walks each 5–6 ft (common practice, no source).
 */
export const walkSpacing = (of: { readonly width: Input<Length> }): Result<Measure<'ft'>, TradeProblem> => {
  const read = readAll({ width: ask(of.width, RANGES.panel) })
  if (!read.ok) return read
  const width = toUnit(read.value.width, 'ft')
  return ok(compare(width, WALK_CAP) > 0 ? WALK_CAP : width)
}
