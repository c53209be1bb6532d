import type { RecordModel } from '../model.ts'
import { given, type Names, unitOf } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'
import { type EntryOf, entriesOf, entryColumns, loadColumns } from './said-columns.ts'

type Ticket = EntryOf<'ticket.recorded'>
type Order = EntryOf<'mix.ordered'>

/** Every ticket as it was copied, also one that was corrected since. */
export const ticketsTable = (model: RecordModel, names: Names): Table =>
  tableOf<Ticket>(
    'tickets',
    [...entryColumns(names), ...loadColumns(names), ...paper, ...asked<Ticket>()],
    entriesOf(model, 'ticket.recorded'),
  )

/** The mix as it was ordered. */
export const mixTable = (model: RecordModel, names: Names): Table =>
  tableOf<Order>(
    'mix',
    [
      ...entryColumns(names),
      ['code', ({ body }) => body.code ?? 'not-recorded'],
      ...asked<Order>(),
      ...pair<Order>('limit', ({ body }) => body.limit),
      ['limit_to', ({ body }) => (body.limit?.is === 'given' ? body.limit.to : '')],
      ...pair<Order>('site_water', ({ body }) => body.siteWater),
      ['may_add_water', ({ body }) => body.mayAddWater ?? 'not-recorded'],
      ['may_waive_limit', ({ body }) => body.mayWaive ?? 'not-recorded'],
    ],
    entriesOf(model, 'mix.ordered'),
  )

type Tagged = { readonly is: string; readonly text?: string; readonly at?: string; readonly unit?: string }

/** A quantity and its unit, in two columns. */
const pair = <T>(name: string, answer: (row: T) => Tagged | undefined): Column<T>[] => [
  [name, (row) => given(answer(row))],
  [`${name}_unit`, (row) => unitOf(answer(row))],
]

const paper: readonly Column<Ticket>[] = [
  ['ticket_number', ({ body }) => given(body.number)],
  ['truck', ({ body }) => given(body.truck)],
  ['driver', ({ body }) => given(body.driver)],
  ['producer', ({ body }) => given(body.producer)],
  ['plant', ({ body }) => given(body.plant)],
  ['order', ({ body }) => given(body.order)],
  ['load_of_day', ({ body }) => given(body.loadOfDay)],
  ...pair<Ticket>('volume', ({ body }) => body.yards),
  ...pair<Ticket>('ordered', ({ body }) => body.ordered),
  ...pair<Ticket>('delivered', ({ body }) => body.delivered),
  ['batched_at', ({ body }) => given(body.batchedAt)],
  ['printed_at', ({ body }) => given(body.printedAt)],
  ['left_plant_at', ({ body }) => given(body.leftPlantAt)],
  ...pair<Ticket>('limit', ({ body }) => body.limit),
  ['limit_to', ({ body }) => (body.limit.is === 'given' ? body.limit.to : '')],
  ['mix', ({ body }) => given(body.mix)],
  ...pair<Ticket>('batched_water', ({ body }) => body.batchedWater),
  ...pair<Ticket>('may_add', ({ body }) => body.allowance),
  ...pair<Ticket>('cementitious', ({ body }) => body.cementitious),
  ['revolutions', ({ body }) => given(body.revolutions)],
]

/** What an order and a ticket have in common. */
const asked = <T extends Ticket | Order>(): Column<T>[] => [
  ...pair<T>('strength', ({ body }) => body.strength),
  ['slump_is', ({ body }) => body.slump?.is ?? 'not-recorded'],
  ...pair<T>('slump_target', ({ body: { slump } }) => (slump?.is === 'target' ? slump.target : NOTHING)),
  ...pair<T>('slump_tolerance', ({ body: { slump } }) =>
    slump?.is === 'target' ? slump.tolerance : NOTHING,
  ),
  ...pair<T>('slump_most', ({ body: { slump } }) => (slump?.is === 'most' ? slump.most : NOTHING)),
  ['air_is', ({ body }) => body.air?.is ?? 'not-recorded'],
  ['air_target_pct', ({ body: { air } }) => (air?.is === 'given' ? (air.target?.text ?? '') : '')],
  ['air_from_pct', ({ body: { air } }) => (air?.is === 'given' ? (air.from?.text ?? '') : '')],
  ['air_to_pct', ({ body: { air } }) => (air?.is === 'given' ? (air.to?.text ?? '') : '')],
  ...pair<T>('stone', ({ body }) => body.stone),
  ['max_water_cement', ({ body }) => given(body.maxWaterCement)],
  ['admixtures', ({ body }) => given(body.admixtures)],
  ['fibre', ({ body }) => given(body.fibre)],
]

/** Where another column says which of the two forms was used. */
const NOTHING: Tagged = { is: '' }
