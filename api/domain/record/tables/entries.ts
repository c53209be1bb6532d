import { canonicalJson } from '../../log/bytes.ts'
import type { EntryModel } from '../history.ts'
import type { RecordModel } from '../model.ts'
import { type Names, whoText } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'

type Row = { readonly slot: RecordModel['thread'][number]; readonly entry: EntryModel | undefined }

/** Every place of the thread, also where the entry is withheld or of a newer program: then only its place is known. */
export const entriesTable = ({ job, thread }: RecordModel, names: Names): Table => {
  const entries = new Map(job.history.map((entry) => [entry.entry, entry]))
  return tableOf(
    'entries',
    columns(names),
    thread.map((slot) => ({ slot, entry: entries.get(slot.entry) })),
  )
}

const of =
  (cell: (entry: EntryModel) => string | number | undefined) =>
  ({ entry }: Row): string | number =>
    (entry && cell(entry)) ?? ''

const columns = ({ countOf }: Names): readonly Column<Row>[] => [
  ['entry', ({ slot }) => slot.count],
  ['entry_hash', ({ slot }) => slot.entry],
  ['is', ({ slot }) => slot.is],
  ['kind', of((entry) => entry.kind)],
  ['occurred_at', of((entry) => entry.at)],
  ['recorded_at', of((entry) => entry.recordedAt)],
  ['received_at', ({ slot }) => slot.receivedAt],
  ['recorded_after_min', of((entry) => entry.delayMinutes)],
  ['late', of((entry) => entry.late)],
  ['received_after_min', of((entry) => entry.receiptMinutes)],
  ['by', of((entry) => whoText(entry.by))],
  ['by_known', of((entry) => entry.by.known)],
  ['person', of((entry) => entry.by.person)],
  ['device', of((entry) => entry.device)],
  ['source', of((entry) => entry.source)],
  ['stands', of((entry) => entry.stands)],
  ['corrects', of((entry) => (entry.corrects ?? []).map((hash) => countOf(hash) || hash).join(' | '))],
  ['why', of((entry) => entry.why?.text)],
  ['body', of((entry) => canonicalJson(entry.body))],
]
