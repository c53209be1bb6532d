import type { LoadModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import { given, type Names, said, someoneText, unitOf } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'
import { type EntryOf, entriesOf, entryColumns, loadColumns } from './said-columns.ts'

type Water = EntryOf<'water.added'>

/** Every answer to "water?", with all that was said of it. */
export const waterTable = (model: RecordModel, names: Names): Table =>
  tableOf<Water>(
    'water',
    [
      ...entryColumns(names),
      ...loadColumns(names),
      ['amount', ({ body }) => given(body.amount)],
      ['unit', ({ body }) => unitOf(body.amount)],
      ['stage', ({ body }) => said(body.stage)],
      ['in_drum', ({ body }) => given(body.inDrum?.yards)],
      ['in_drum_unit', ({ body }) => unitOf(body.inDrum?.yards)],
      ['in_drum_how', ({ body }) => said(body.inDrum?.how)],
      ['in_drum_from', ({ body }) => given(body.inDrum?.from)],
      ['in_drum_to', ({ body }) => given(body.inDrum?.to)],
      ['asked_by', ({ body }) => someoneText(body.asked, names)],
      ['added_by', ({ body }) => someoneText(body.added, names)],
      ['mixed_min', ({ body }) => given(body.mixed)],
    ],
    entriesOf(model, 'water.added'),
  )

type Admixture = EntryOf<'admixture.added'>

/** What else was put into the drum on site. */
export const admixturesTable = (model: RecordModel, names: Names): Table =>
  tableOf<Admixture>(
    'admixtures',
    [
      ...entryColumns(names),
      ...loadColumns(names),
      ['product', ({ body }) => body.product],
      ['amount', ({ body }) => given(body.amount)],
      ['unit', ({ body }) => unitOf(body.amount)],
      ['asked_by', ({ body }) => someoneText(body.asked, names)],
      ['added_by', ({ body }) => someoneText(body.added, names)],
    ],
    entriesOf(model, 'admixture.added'),
  )

type Figure = { readonly load: LoadModel; readonly ticket: LoadModel['ticketWaters'][number] }

/** What each ticket's allowance and batch weights come to with that water. */
export const waterFiguresTable = ({ job }: RecordModel, names: Names): Table =>
  tableOf<Figure>(
    'water-figures',
    [
      ['load', ({ load }) => load.ordinal],
      ['load_id', ({ load }) => load.load],
      ['ticket_entry', ({ ticket }) => names.countOf(ticket.ticket)],
      ['may_add_gal', ({ ticket: { allowance: a } }) => (a.is === 'given' ? a.allowed : a.is)],
      ['added_gal', ({ ticket: { allowance: a } }) => (a.is === 'given' ? (a.added ?? 'not-recorded') : '')],
      ['added_is_at_least', ({ ticket: { allowance: a } }) => (a.is === 'given' ? a.atLeast : '')],
      ['over_gal', ({ ticket: { allowance: a } }) => (a.is === 'given' ? (a.over ?? 'not-recorded') : '')],
      ['verdict', ({ ticket: { allowance: a } }) => verdictOf(a)],
      ...lastPart,
      ['water_lb_per_gal', () => '8.34'],
      ...(['batched', 'first', 'last', 'whole'] as const).map(
        (part): Column<Figure> => [
          `ratio_${part}`,
          ({ ticket }) => ratioOf(ticket, part)?.ratio ?? 'not-worked-out',
        ],
      ),
      ['ratio_last_from', ({ ticket }) => ratioOf(ticket, 'last')?.range?.[0] ?? ''],
      ['ratio_last_to', ({ ticket }) => ratioOf(ticket, 'last')?.range?.[1] ?? ''],
      ['ratio_last_by_eye', ({ ticket }) => ratioOf(ticket, 'last')?.byEye ?? ''],
      ['ratio_most', ({ ticket }) => ticket.maxRatio ?? 'not-recorded'],
    ],
    job.loads.flatMap((load) => load.ticketWaters.map((ticket) => ({ load, ticket }))),
  )

type Allowance = Figure['ticket']['allowance']

const verdictOf = (allowance: Allowance): string => {
  if (allowance.is === 'given') return allowance.verdict
  return allowance.is === 'not-stated' ? 'limit-not-stated' : 'not-recorded'
}

const lastOf = ({ ticket: { allowance } }: Figure) =>
  allowance.is === 'given' ? allowance.lastPart : undefined

const lastPart: readonly Column<Figure>[] = [
  ['last_part_gal_per_yd3', (row) => lastOf(row)?.gallonsPerYard ?? ''],
  ['last_part_gal_per_yd3_from', (row) => lastOf(row)?.range?.gallonsPerYard[0] ?? ''],
  ['last_part_gal_per_yd3_to', (row) => lastOf(row)?.range?.gallonsPerYard[1] ?? ''],
  ['last_part_over_gal', (row) => lastOf(row)?.over ?? ''],
  ['last_part_over_gal_from', (row) => lastOf(row)?.range?.over[0] ?? ''],
  ['last_part_over_gal_to', (row) => lastOf(row)?.range?.over[1] ?? ''],
  ['last_part_by_times', (row) => lastOf(row)?.byTimes ?? ''],
]

const ratioOf = ({ ratios }: Figure['ticket'], part: Figure['ticket']['ratios'][number]['part']) =>
  ratios.find((ratio) => ratio.part === part)
