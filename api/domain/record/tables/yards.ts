import type { JobModel } from '../job-model.ts'
import type { RecordModel } from '../model.ts'
import { given, type Names, said, unitOf } from './cells.ts'
import { over, type Table, tableOf } from './column.ts'
import { type EntryOf, entriesOf, entryColumns, loadColumns } from './said-columns.ts'

type Plan = EntryOf<'placement.planned'>
type Part = { readonly plan: Plan; readonly part: Plan['body']['parts'][number] }

/** Every planned part with its sides as entered; what it takes as formed stands where the plan does. */
export const partsTable = (model: RecordModel, names: Names): Table => {
  const yards = new Map(model.job.parts.map(({ part, yards: text }) => [part, text]))
  return tableOf<Part>(
    'parts',
    [
      ...over(entryColumns(names), ({ plan }: Part) => plan),
      ['placement', ({ plan }) => plan.body.name],
      ['placement_id', ({ plan }) => plan.body.placement],
      ['part', ({ part }) => part.name],
      ['part_id', ({ part }) => part.part],
      ...(['length', 'width', 'thickness'] as const).flatMap((side) => [
        [side, ({ part }: Part) => part[side].text] as const,
        [`${side}_unit`, ({ part }: Part) => part[side].unit] as const,
      ]),
      ['formed_yd3', ({ plan, part }) => (plan.stands === 'stands' ? (yards.get(part.part) ?? '') : '')],
    ],
    entriesOf(model, 'placement.planned').flatMap((plan) => plan.body.parts.map((part) => ({ plan, part }))),
  )
}

type Placed = EntryOf<'load.placed'>
type Place = { readonly placed: Placed; readonly place: Placed['body']['places'][number] }

/** Where each load went, a part a row. */
export const placedTable = (model: RecordModel, names: Names): Table => {
  const of = ({ placed }: Place): Placed => placed
  return tableOf<Place>(
    'placed',
    [
      ...over(entryColumns(names), of),
      ...over(loadColumns(names), of),
      ['part', ({ place }) => names.partOf(place.part)],
      ['part_id', ({ place }) => place.part],
      ...(['from', 'to', 'yards'] as const).flatMap((name) => [
        [name, ({ place }: Place) => place[name]?.text ?? ''] as const,
        [`${name}_unit`, ({ place }: Place) => unitOf(place[name])] as const,
      ]),
      ['how', ({ placed }) => placed.body.how],
      ['said', ({ placed }) => said(placed.body.said)],
    ],
    entriesOf(model, 'load.placed').flatMap((placed) =>
      placed.body.places.map((place) => ({ placed, place })),
    ),
  )
}

type Order = EntryOf<'concrete.ordered' | 'balance.ordered' | 'concrete.held'>

/** What was asked of the plant; orders and balances add up, what is on hold does not. */
export const ordersTable = (model: RecordModel, names: Names): Table =>
  tableOf<Order>(
    'orders',
    [
      ...entryColumns(names),
      ['kind', ({ kind }) => kind],
      ['yards', ({ body }) => body.yards.text],
      ['unit', ({ body }) => body.yards.unit],
      ['still_needed', (entry) => (entry.kind === 'balance.ordered' ? given(entry.body.needed) : '')],
      ['still_needed_unit', (entry) => (entry.kind === 'balance.ordered' ? unitOf(entry.body.needed) : '')],
      ['still_needed_how', (entry) => (entry.kind === 'balance.ordered' ? said(entry.body.how) : '')],
    ],
    entriesOf(model, 'concrete.ordered', 'balance.ordered', 'concrete.held'),
  )

/** The job's sums, in one row. */
export const yardsTable = ({ job }: RecordModel): Table => {
  const sum = (yards: JobModel['formed']) => (yards.is === 'given' ? yards.yards : yards.is)
  return tableOf<JobModel>(
    'yards',
    [
      ['formed_yd3', ({ formed }) => sum(formed)],
      ['parts_not_in_formed', ({ partsWithout }) => partsWithout],
      ['ordered_yd3', ({ ordered }) => sum(ordered.sum)],
      ['ticketed_yd3', ({ ticketed }) => ticketed.yards],
      ['loads_not_in_ticketed', ({ ticketed }) => ticketed.loadsWithout],
      ['sent_back_yd3', ({ ticketed }) => ticketed.sentBack],
      ['ticketed_less_ordered_yd3', ({ difference }) => sum(difference)],
      ['placed_yd3', ({ placed }) => placed.yards],
      ['loads_not_in_placed', ({ placed }) => placed.loadsWithout],
      ['left_over_yd3', ({ leftOver }) => leftOver.yards],
      ['loads_not_in_left_over', ({ leftOver }) => leftOver.loadsWithout],
      [
        'placed_over_formed_pct',
        ({ overFormed }) => (overFormed.is === 'given' ? overFormed.percent : overFormed.is),
      ],
      ['look_again', ({ oddities }) => oddities.join(' | ') || 'none'],
    ],
    [job],
  )
}

/** From the end of one load's discharge to the start of the next. */
export const betweenTable = ({ job }: RecordModel, names: Names): Table =>
  tableOf<JobModel['edgeGaps'][number]>(
    'between-loads',
    [
      ['from_load', ({ from }) => names.ordinalOf(from)],
      ['from_load_id', ({ from }) => from],
      ['to_load', ({ to }) => names.ordinalOf(to)],
      ['to_load_id', ({ to }) => to],
      ['minutes', ({ minutes }) => minutes],
    ],
    job.edgeGaps,
  )
