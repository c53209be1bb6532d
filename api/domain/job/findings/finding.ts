import type { LocalTime } from '../../time.ts'
import type { ChoiceName } from '../../trade/editions.ts'
import type { Limit, Verdict } from '../../trade/finding.ts'
import type { Measure } from '../../trade/measure.ts'
import type { SourceId } from '../../trade/sources.ts'
import type { TradeUnit } from '../../trade/unit-table.ts'
import { type Quantity, readNumber, showFixed, showNumber, type Unit } from '../../units.ts'

/** What is compared with a limit. */
export const FINDINGS = [
  'discharge-minutes',
  'drum-revolutions',
  'slump',
  'air',
  'cold-weather',
  'placing-temperature',
  'hot-temperature',
  'evaporation',
  'minutes-to-slump',
  'minutes-to-air',
  'minutes-to-temperature',
  'minutes-to-cylinders',
  'strength-test',
  'strength-mean-of-three',
  'joint-spacing',
  'joint-depth',
  'saw-hours',
  'hours-covered',
] as const
export type FindingOf = (typeof FINDINGS)[number]

/** What a comparison needs and no entry says. */
export const MISSING = [
  'ticket',
  'batched',
  'discharge-start',
  'discharge-end',
  'revolutions',
  'thickness',
  'night-temperatures',
  'daily-temperatures',
  'concrete-temperature',
  'air-temperature',
  'humidity',
  'wind',
  'strength-ordered',
  'cylinder-size',
  'three-tests',
  'finish-end',
  'saw-tool',
  'cover',
  'cover-off',
] as const
export type Missing = (typeof MISSING)[number]

/** What whoever reads a figure has to know beside it. */
export const NOTES = [
  'by-eye',
  'waived',
  'station-wind',
  'wind-by-feel',
  'wind-height-unknown',
  'near-threshold',
  'water-settles',
  'out-of-range',
  'no-cure-logged',
  'all-parts',
  'lowest-of-readings',
  'mean-of-readings',
  'cold-weather-not-known',
  'result-time',
  'too-few-tests',
  'too-few-cylinders',
  'last-finish-logged',
  'concrete-decides',
  'covers-alone',
] as const
export type Note = (typeof NOTES)[number]

/** A figure as it is shown, to the digits that it is good for. */
export type Shown = { readonly text: string; readonly unit: TradeUnit }

export const INPUTS = ['concrete-temperature', 'surface-temperature', 'air', 'humidity', 'wind'] as const
/** What went into a figure, as it was entered, with the entry that says so. */
export type Input = Shown & { readonly of: (typeof INPUTS)[number]; readonly entry: string }

/** Which edition was asked: chosen in these entries, or the usual one where nobody chose. */
export type EditionUsed = {
  readonly choice: ChoiceName
  readonly edition: string
  readonly chosenIn: readonly string[]
}

/**
 * A value beside a limit and where it lies. Never more: no cause, no advice. Without a value or a limit it says which of
 * the two is lacking, and what entries would have to say.
 */
export type JobFinding = {
  readonly of: FindingOf
  readonly load?: string
  readonly parts?: readonly string[]
  /** When what is compared happened; of weather, the hour that the row is of. */
  readonly at?: LocalTime
  readonly value?: Shown
  readonly inputs: readonly Input[]
  readonly least?: Shown
  readonly most?: Shown
  /** The most lies outside itself: measures are called for from it on. */
  readonly open?: 'under-most'
  /** Where the limit comes from. */
  readonly source?: SourceId
  /** Where the value's formula comes from, where it has one. */
  readonly formula?: SourceId
  readonly editions: readonly EditionUsed[]
  readonly verdict: Verdict
  readonly missing: readonly Missing[]
  readonly notes: readonly Note[]
  /** Hashes of all entries that it rests on, each once. */
  readonly entries: readonly string[]
}

type Lists = 'inputs' | 'editions' | 'missing' | 'notes' | 'entries'
type Draft = {
  readonly [K in Exclude<keyof JobFinding, Lists>]: JobFinding[K] | undefined
} & { readonly [K in Lists]?: JobFinding[K] }
type Given = Partial<Draft> & Pick<JobFinding, 'of' | 'verdict'>

/** A finding of what is known: what is undefined is left out, so that a model of it has one reading. */
export const jobFinding = ({ entries = [], ...given }: Given): JobFinding => {
  const known = Object.entries(given).filter(([, value]) => value !== undefined)
  return {
    inputs: [],
    editions: [],
    missing: [],
    notes: [],
    ...Object.fromEntries(known),
    entries: [...new Set(entries)],
  } as unknown as JobFinding
}

/** Digits after the point in which a unit is shown at most. */
const DIGITS: { readonly [U in TradeUnit]?: number } = { 'lb/ft2/h': 3, psi: 0, degF: 1, h: 1 }

export const shown = (m: Measure | undefined): Shown | undefined =>
  m && { text: showNumber(m, DIGITS[m.unit] ?? 2), unit: m.unit }

/** An estimate has no more digits than its formula is good for, and always these, since it is read in columns. */
export const shownEstimate = (estimate: number, unit: TradeUnit, digits: number): Shown => ({
  text: showFixed({ n: BigInt(Math.round(estimate * 10 ** digits)), d: 10n ** BigInt(digits) }, digits),
  unit,
})

export const limitOf = (limit: Limit | undefined): Pick<Draft, 'least' | 'most' | 'open' | 'source'> => ({
  least: shown(limit?.least),
  most: shown(limit?.most),
  open: limit?.open === 'under-most' ? 'under-most' : undefined,
  source: limit?.source,
})

/** What was entered, as a measure of the trade; undefined where its text is no number. */
export const entered = <U extends Unit>(
  quantity: (Omit<Quantity, 'unit'> & { readonly unit: U }) | undefined,
): Measure<U> | undefined => {
  const number = quantity && readNumber(quantity.text)
  return number?.ok ? { ...number.value, unit: quantity!.unit } : undefined
}
