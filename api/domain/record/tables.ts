import { canonicalJson } from '../log/bytes.ts'
import { writeCsv } from './csv.ts'
import { type EntryModel, firstsOf } from './history.ts'
import type { LoadModel, Span } from './load-model.ts'
import type { RecordModel } from './model.ts'
import type { SaidModel, Who } from './said.ts'

/** A table file by its name in the record. Column names and codes are the same in every language. */
export type Table = { readonly name: string; readonly text: string }

export const tablesOf = (model: RecordModel): Table[] => {
  const counts = new Map(model.thread.map((slot) => [slot.entry, slot.count]))
  const ordinals = new Map(model.job.loads.map((load) => [load.load, load.ordinal]))
  const names: Names = {
    countOf: (hash) => counts.get(hash) ?? '',
    ordinalOf: (load) => ordinals.get(load) ?? '',
    firstsOf: firstsOf(model.job.history),
  }
  return [
    { name: 'tables/entries.csv', text: entriesTable(model, names) },
    { name: 'tables/loads.csv', text: loadsTable(model, names) },
    { name: 'tables/slump.csv', text: slumpTable(model, names) },
    { name: 'tables/water.csv', text: waterTable(model, names) },
  ]
}

type Names = {
  readonly countOf: (hash: string) => number | ''
  readonly ordinalOf: (load: string) => number | ''
  readonly firstsOf: (hash: string) => readonly string[]
}

/** Several standing answers share a cell, parted by a bar. */
const joined = (all: readonly (string | number)[]): string => all.join(' | ') || 'not-recorded'
const given = (answer: { readonly is: string; readonly text?: string; readonly at?: string }): string =>
  answer.text ?? answer.at ?? answer.is
const span = (minutes: Span): string => (minutes.is === 'given' ? joined(minutes.minutes) : minutes.is)
const whoText = (by: Who): string => by.name ?? by.person ?? by.known

const LOADS = [
  'load',
  'load_id',
  'ticket_number',
  'truck',
  'ticket_volume',
  'ticket_volume_unit',
  'batched_at',
  'limit_min',
  'limit_to',
  'arrived_at',
  'discharge_started_at',
  'discharge_ended_at',
  'left_at',
  'batch_to_start_min',
  'batch_to_end_min',
  'on_site_min',
  'limit_verdict',
  'water',
  'water_gal',
  'slump',
  'photos',
  'corrected',
] as const

const loadsTable = (model: RecordModel, names: Names): string =>
  writeCsv(
    LOADS,
    model.job.loads.map((load) => loadRow(load, names)),
  )

/** `slump: entry 9, first 8`: each standing answer that is a correction, and the entries that it goes back to. */
const correctedCell = (load: LoadModel, { countOf, firstsOf }: Names): string => {
  const answers: readonly (readonly [string, readonly SaidModel[]])[] = [
    ['ticket', load.tickets],
    ['arrived_at', load.arrived],
    ['discharge_started_at', load.started],
    ['discharge_ended_at', load.ended],
    ['left_at', load.left],
    ['water', load.water.answers],
    ['slump', load.slump],
    ['photos', load.photos],
  ]
  const texts = answers.flatMap(([fact, all]) =>
    all.flatMap(({ entry }) => {
      const firsts = firstsOf(entry).map((hash) => countOf(hash) || hash)
      return firsts.length === 0 ? [] : [`${fact}: entry ${countOf(entry)}, first ${firsts.join(', ')}`]
    }),
  )
  return texts.join(' | ') || 'none'
}

const loadRow = (load: LoadModel, names: Names): (string | number)[] => {
  const { tickets, water } = load
  return [
    load.ordinal,
    load.load,
    joined(tickets.map((t) => given(t.number))),
    joined(tickets.map((t) => given(t.truck))),
    joined(tickets.map((t) => given(t.yards))),
    joined(tickets.map((t) => (t.yards.is === 'given' ? t.yards.unit : t.yards.is))),
    joined(tickets.map((t) => given(t.batchedAt))),
    joined(tickets.map((t) => given(t.limit))),
    joined(tickets.map((t) => (t.limit.is === 'given' ? t.limit.to : t.limit.is))),
    ...[load.arrived, load.started, load.ended, load.left].map((times) => joined(times.map((t) => t.at))),
    span(load.batchToStart),
    span(load.batchToEnd),
    span(load.onSite),
    load.limit.verdict,
    water.sum.is,
    water.sum.is === 'given' ? water.sum.gallons : water.sum.is === 'none' ? '0' : '',
    joined(
      load.slump.map(({ slump, how }) =>
        slump.is === 'given' ? `${slump.text} ${slump.unit} ${how}` : slump.is,
      ),
    ),
    load.photos.map((photo) => photo.photo).join(' | ') || 'none-logged',
    correctedCell(load, names),
  ]
}

const SAID = [
  'entry',
  'entry_hash',
  'stands',
  'load',
  'load_id',
  'occurred_at',
  'recorded_at',
  'received_at',
  'by',
] as const

const saidCells = (entry: EntryModel, load: string, names: Names): (string | number)[] => [
  names.countOf(entry.entry),
  entry.entry,
  entry.stands,
  names.ordinalOf(load),
  load,
  entry.at,
  entry.recordedAt,
  entry.receivedAt ?? '',
  whoText(entry.by),
]

const waterTable = ({ job }: RecordModel, names: Names): string =>
  writeCsv(
    [...SAID, 'amount', 'unit'],
    job.history.flatMap((entry) => {
      if (entry.kind !== 'water.added') return []
      const { amount, load } = entry.body
      return [[...saidCells(entry, load, names), given(amount), amount.is === 'given' ? amount.unit : '']]
    }),
  )

const slumpTable = ({ job }: RecordModel, names: Names): string =>
  writeCsv(
    [...SAID, 'slump', 'unit', 'how'],
    job.history.flatMap((entry) => {
      if (entry.kind !== 'slump.measured') return []
      const { slump, how, load } = entry.body
      return [
        [...saidCells(entry, load, names), given(slump), slump.is === 'given' ? slump.unit : '', how ?? ''],
      ]
    }),
  )

const ENTRIES = [
  'entry',
  'entry_hash',
  'is',
  'kind',
  'occurred_at',
  'recorded_at',
  'received_at',
  'recorded_after_min',
  'late',
  'received_after_min',
  'by',
  'by_known',
  'person',
  'device',
  'source',
  'stands',
  'corrects',
  'why',
  'body',
] as const

/** Every place of the thread, also where the entry is withheld or of a newer program. */
const entriesTable = ({ job, thread }: RecordModel, { countOf }: Names): string => {
  const entries = new Map(job.history.map((entry) => [entry.entry, entry]))
  return writeCsv(
    ENTRIES,
    thread.map((slot) => {
      const place = [slot.count, slot.entry, slot.is]
      const entry = entries.get(slot.entry)
      if (!entry) return [...place, '', '', '', slot.receivedAt, ...ENTRIES.slice(7).map(() => '')]
      return [
        ...place,
        entry.kind,
        entry.at,
        entry.recordedAt,
        slot.receivedAt,
        entry.delayMinutes,
        entry.late,
        entry.receiptMinutes ?? '',
        whoText(entry.by),
        entry.by.known,
        entry.by.person ?? '',
        entry.device,
        entry.source,
        entry.stands,
        (entry.corrects ?? []).map((hash) => countOf(hash) || hash).join(' | '),
        entry.why?.text ?? '',
        canonicalJson(entry.body),
      ]
    }),
  )
}
