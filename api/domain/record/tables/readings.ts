import type { RecordModel } from '../model.ts'
import { given, type Names, said, unitOf } from './cells.ts'
import { over, type Table, tableOf } from './column.ts'
import { type EntryOf, entriesOf, entryColumns, loadColumns, takingColumns } from './said-columns.ts'

/** Every slump, with who found it how; by eye is not measured. */
export const slumpTable = (model: RecordModel, names: Names): Table =>
  tableOf<EntryOf<'slump.measured'>>(
    'slump',
    [
      ...entryColumns(names),
      ...loadColumns(names),
      ['slump', ({ body }) => given(body.slump)],
      ['unit', ({ body }) => unitOf(body.slump)],
      ['how', ({ body }) => body.how ?? ''],
      ...over(takingColumns(names), ({ body }: EntryOf<'slump.measured'>) => body.taking),
    ],
    entriesOf(model, 'slump.measured'),
  )

export const airTable = (model: RecordModel, names: Names): Table =>
  tableOf<EntryOf<'air.measured'>>(
    'air',
    [
      ...entryColumns(names),
      ...loadColumns(names),
      ['air', ({ body }) => given(body.air)],
      ['unit', ({ body }) => unitOf(body.air)],
      ['method', ({ body }) => said(body.method)],
      ['aggregate_correction_pct', ({ body }) => given(body.aggregateCorrection)],
      ...over(takingColumns(names), ({ body }: EntryOf<'air.measured'>) => body.taking),
    ],
    entriesOf(model, 'air.measured'),
  )

/** Of concrete, air and surface; those of no load have no load. */
export const temperaturesTable = (model: RecordModel, names: Names): Table =>
  tableOf<EntryOf<'temperature.measured'>>(
    'temperatures',
    [
      ...entryColumns(names),
      ...loadColumns(names),
      ['of', ({ body }) => body.of],
      ['temperature', ({ body }) => given(body.temperature)],
      ['unit', ({ body }) => unitOf(body.temperature)],
      ['part', ({ body }) => (body.part === undefined ? '' : names.partOf(body.part))],
      ...over(takingColumns(names), ({ body }: EntryOf<'temperature.measured'>) => body.taking),
    ],
    entriesOf(model, 'temperature.measured'),
  )

type Other = EntryOf<'flow.measured' | 'density.measured' | 'cylinders.made' | 'strength.reported'>
type Line = { readonly entry: Other; readonly value: string; readonly unit: string }

/** Slump flow, density, cylinders and strength: one value a row, so that a set of breaks has a row each. */
export const readingsTable = (model: RecordModel, names: Names): Table => {
  const entries = entriesOf(model, 'flow.measured', 'density.measured', 'cylinders.made', 'strength.reported')
  const of = ({ entry }: Line): Other => entry
  return tableOf<Line>(
    'readings',
    [
      ...over(entryColumns(names), of),
      ...over(loadColumns(names), of),
      ['kind', ({ entry }) => entry.kind],
      ['value', ({ value }) => value],
      ['unit', ({ unit }) => unit],
      ['age_days', ({ entry }) => (entry.kind === 'strength.reported' ? entry.body.days : '')],
      ['laboratory', ({ entry }) => (entry.kind === 'strength.reported' ? said(entry.body.laboratory) : '')],
      ['reported_at', ({ entry }) => (entry.kind === 'strength.reported' ? said(entry.body.reportedAt) : '')],
      ['cylinder_size', ({ entry }) => (entry.kind === 'cylinders.made' ? said(entry.body.size) : '')],
      ['label', ({ entry }) => (entry.kind === 'cylinders.made' ? said(entry.body.label) : '')],
      ['done_at', ({ entry }) => (entry.kind === 'cylinders.made' ? said(entry.body.doneAt) : '')],
      ...over(takingColumns(names), ({ entry }: Line) =>
        entry.kind === 'strength.reported' ? undefined : entry.body.taking,
      ),
    ],
    entries.flatMap((entry): Line[] => valuesOf(entry).map((value) => ({ entry, ...value }))),
  )
}

const valuesOf = (entry: Other): { value: string; unit: string }[] => {
  const one = (answer: Parameters<typeof given>[0]) => ({ value: given(answer), unit: unitOf(answer) })
  switch (entry.kind) {
    case 'flow.measured':
      return [one(entry.body.flow)]
    case 'density.measured':
      return [one(entry.body.density)]
    case 'cylinders.made':
      return [{ value: given(entry.body.number), unit: '' }]
    case 'strength.reported':
      return entry.body.breaks.map(one)
  }
}
