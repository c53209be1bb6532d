import type { JobModel } from '../job-model.ts'
import type { RecordModel } from '../model.ts'
import { given, type Names, said, unitOf } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'
import { type EntryOf, entriesOf, entryColumns } from './said-columns.ts'

type Weather = EntryOf<'weather.observed'>

/** Weather with where it comes from; the wind's height decides whether it says anything of the slab. */
export const weatherTable = (model: RecordModel, names: Names): Table =>
  tableOf<Weather>(
    'weather',
    [
      ...entryColumns(names),
      ['source', ({ body }) => body.source],
      ['station', ({ body }) => said(body.station)],
      ...(['distance', 'air', 'humidity', 'wind', 'windHeight', 'gust'] as const).flatMap((field) => [
        [WEATHER[field], ({ body }: Weather) => given(body[field])] as const,
        [`${WEATHER[field]}_unit`, ({ body }: Weather) => unitOf(body[field])] as const,
      ]),
    ],
    entriesOf(model, 'weather.observed'),
  )

const WEATHER = {
  distance: 'distance',
  air: 'air_temperature',
  humidity: 'humidity',
  wind: 'wind',
  windHeight: 'wind_height',
  gust: 'gust',
} as const

type Check = EntryOf<'base.checked' | 'depth.measured'>

/** What was looked at and measured before the pour. */
export const checksTable = (model: RecordModel, names: Names): Table =>
  tableOf<Check>(
    'checks',
    [
      ...entryColumns(names),
      ['what', (entry) => (entry.kind === 'base.checked' ? entry.body.what : 'depth')],
      ['found', (entry) => (entry.kind === 'base.checked' ? entry.body.found : entry.body.depth.text)],
      ['unit', (entry) => (entry.kind === 'base.checked' ? '' : entry.body.depth.unit)],
      ['part', ({ body }) => (body.part === undefined ? '' : names.partOf(body.part))],
      ['where', (entry) => (entry.kind === 'base.checked' ? '' : said(entry.body.where))],
      ['remark', (entry) => (entry.kind === 'base.checked' ? (entry.body.remark?.text ?? '') : '')],
    ],
    entriesOf(model, 'base.checked', 'depth.measured'),
  )

const EVENTS = [
  'finish.done',
  'cure.applied',
  'cover.placed',
  'joint.sawn',
  'rain.fell',
  'slab.served',
] as const
type Event = EntryOf<(typeof EVENTS)[number]>

/** What a step says, whichever kind it is of: a member that a kind has not stays empty. */
type Members = {
  readonly [M in 'step' | 'phase' | 'what' | 'change' | 'product' | 'where' | 'said']?: string
} & {
  readonly parts?: readonly string[]
} & {
  readonly [M in 'amount' | 'area' | 'depth' | 'spacing']?: {
    readonly is: string
    readonly text: string
    readonly unit: string
  }
}

const membersOf = ({ body }: Event): Members => body as Members

/** Finishing, curing, covers, saw cuts, rain, and what came after. */
export const eventsTable = (model: RecordModel, names: Names): Table => {
  const word = (name: 'step' | 'phase' | 'what' | 'change' | 'product' | 'where' | 'said'): Column<Event> => [
    name,
    (event) => membersOf(event)[name] ?? '',
  ]
  return tableOf<Event>(
    'events',
    [
      ...entryColumns(names),
      ['kind', ({ kind }) => kind],
      word('step'),
      word('what'),
      word('change'),
      word('phase'),
      ['parts', (event) => (membersOf(event).parts ?? []).map(names.partOf).join(' | ')],
      word('where'),
      word('product'),
      ...(['amount', 'area', 'depth', 'spacing'] as const).flatMap((name) => [
        [name, (event: Event) => membersOf(event)[name]?.text ?? ''] as const,
        [`${name}_unit`, (event: Event) => membersOf(event)[name]?.unit ?? ''] as const,
      ]),
      word('said'),
    ],
    entriesOf(model, ...EVENTS),
  )
}

/** What was not recorded, with the load, part or night that it is of. */
export const gapsTable = ({ job }: RecordModel, names: Names): Table =>
  tableOf<JobModel['gaps'][number]>(
    'gaps',
    [
      ['gap', ({ gap }) => gap],
      ['is', ({ is }) => is],
      ['load', ({ load }) => names.ordinalOf(load)],
      ['load_id', ({ load }) => load ?? ''],
      ['part', ({ part }) => (part === undefined ? '' : names.partOf(part))],
      ['part_id', ({ part }) => part ?? ''],
      ['after_night', ({ after }) => after ?? ''],
    ],
    job.gaps,
  )
