import type { FindingModel, SourceModel } from '../finding-model.ts'
import type { RecordModel } from '../model.ts'
import type { Names } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'

type Finding = FindingModel

/** Comparisons with limits of published texts: value, what it was worked out from, limit, source and edition. */
export const findingsTable = ({ job }: RecordModel, names: Names): Table => {
  const counts = (hashes: readonly string[]): string =>
    hashes
      .map(names.countOf)
      .sort((a, b) => Number(a) - Number(b))
      .join(' ')
  return tableOf<Finding>(
    'findings',
    [
      ['of', ({ of }) => of],
      ['load', ({ load }) => names.ordinalOf(load)],
      ['load_id', ({ load }) => load ?? ''],
      ['parts', ({ parts }) => (parts ?? []).map(names.partOf).join(' | ')],
      ['at', ({ at }) => at ?? ''],
      ['value', ({ value }) => value?.text ?? 'not-recorded'],
      ['unit', ({ value }) => value?.unit ?? ''],
      ...INPUTS.flatMap(([column, of]) => inputColumns(column, of)),
      ['from', ({ least }) => least?.text ?? ''],
      ['to', ({ most }) => most?.text ?? ''],
      ['limit_unit', ({ least, most }) => (most ?? least)?.unit ?? ''],
      // A threshold: what lies on it is outside.
      ['to_is_outside', ({ most, open }) => (most ? (open === 'under-most' ? 'yes' : 'no') : '')],
      ...sourceColumns('limit', ({ source }) => source),
      ...sourceColumns('formula', ({ formula }) => formula),
      ['choices', ({ editions }) => editions.map(({ choice }) => choice).join(' | ')],
      ['editions', ({ editions }) => editions.map(({ edition }) => edition).join(' | ')],
      [
        'chosen_in',
        ({ editions }) => editions.map(({ chosenIn }) => counts(chosenIn) || 'usual').join(' | '),
      ],
      ['verdict', ({ verdict }) => verdict],
      ['missing', ({ missing }) => missing.join(' | ')],
      ['notes', ({ notes }) => notes.join(' | ')],
      ['entries', ({ entries }) => counts(entries)],
    ],
    job.findings,
  )
}

/** What an evaporation rate is worked out from: the surface’s temperature is the concrete’s, or was read of the surface. */
const INPUTS = [
  ['surface', ['concrete-temperature', 'surface-temperature']],
  ['air', ['air']],
  ['humidity', ['humidity']],
  ['wind', ['wind']],
] as const

const inputColumns = (
  column: string,
  of: readonly Finding['inputs'][number]['of'][],
): readonly Column<Finding>[] => {
  const input = ({ inputs }: Finding) => inputs.find((one) => of.includes(one.of))
  return [
    [`input_${column}`, (finding) => input(finding)?.text ?? ''],
    [`input_${column}_unit`, (finding) => input(finding)?.unit ?? ''],
  ]
}

const sourceColumns = (
  column: string,
  of: (finding: Finding) => SourceModel | undefined,
): readonly Column<Finding>[] => [
  [`${column}_source`, (finding) => of(finding)?.title ?? ''],
  [`${column}_edition`, (finding) => of(finding)?.edition ?? ''],
  [`${column}_clause`, (finding) => of(finding)?.clause ?? ''],
  [`${column}_how_read`, (finding) => of(finding)?.how ?? ''],
]
