import type { LoadModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { Names } from './cells.ts'
import { type Table, tableOf } from './column.ts'

type Comparison = {
  readonly load: LoadModel
  readonly of: string
  /** Entry of the reading, where one has it. */
  readonly reading: string | undefined
  readonly value: string | number
  readonly unit: string
  readonly from: string
  readonly to: string | number
  readonly source: string | undefined
  readonly statedBy: string
  readonly byEye: string
  readonly verdict: string
}

/** Every comparison: the value, the ends, who states them, and where it lies. Nothing is judged. */
export const comparisonsTable = ({ job }: RecordModel, names: Names): Table =>
  tableOf<Comparison>(
    'comparisons',
    [
      ['load', ({ load }) => load.ordinal],
      ['load_id', ({ load }) => load.load],
      ['of', ({ of }) => of],
      ['reading_entry', ({ reading }) => (reading === undefined ? '' : names.countOf(reading))],
      ['value', ({ value }) => value],
      ['unit', ({ unit }) => unit],
      ['from', ({ from }) => from],
      ['to', ({ to }) => to],
      ['stated_by', ({ statedBy }) => statedBy],
      ['stated_in_entry', ({ source }) => (source === undefined ? '' : names.countOf(source))],
      ['by_eye', ({ byEye }) => byEye],
      ['verdict', ({ verdict }) => verdict],
    ],
    job.loads.flatMap((load) => [...minutesOf(load), ...tolerancesOf(load)]),
  )

const minutesOf = (load: LoadModel): Comparison[] =>
  load.limit.checks.map((check) => ({
    load,
    of: `batching-to-${check.to}`,
    reading: undefined,
    value: check.minutes,
    unit: 'min',
    from: '',
    to: check.limitMinutes,
    source: check.source,
    statedBy: check.statedBy,
    byEye: '',
    verdict: check.verdict,
  }))

const tolerancesOf = (load: LoadModel): Comparison[] =>
  load.tolerances.map((one) => ({
    load,
    of: one.of,
    reading: one.reading,
    value: one.value,
    unit: one.of === 'slump' ? 'in' : 'pct',
    from: one.from ?? '',
    to: one.to ?? '',
    source: one.source,
    statedBy: one.statedBy ?? '',
    byEye: one.byEye,
    verdict: one.verdict,
  }))
