import type { Kind } from '../../entry/registry.ts'
import type { Taking } from '../../entry/taking.ts'
import type { EntryModel } from '../history.ts'
import type { RecordModel } from '../model.ts'
import { type Names, said, someoneText, whoText } from './cells.ts'
import type { Column } from './column.ts'

/** Entries of some kinds, each with its own body. */
export type EntryOf<K extends Kind> = Extract<EntryModel, { readonly kind: K }>

/** All entries of these kinds in the job's history, also those that no longer stand. */
export const entriesOf = <K extends Kind>(model: RecordModel, ...kinds: readonly K[]): EntryOf<K>[] => {
  const wanted: ReadonlySet<Kind> = new Set(kinds)
  return model.job.history.filter((entry): entry is EntryOf<K> => wanted.has(entry.kind))
}

/** Which entry a row is: its number and hash, whether it stands, when and by whom. */
export const entryColumns = (names: Names): readonly Column<EntryModel>[] => [
  ['entry', (entry) => names.countOf(entry.entry)],
  ['entry_hash', (entry) => entry.entry],
  ['stands', (entry) => entry.stands],
  ['occurred_at', (entry) => entry.at],
  ['recorded_at', (entry) => entry.recordedAt],
  ['received_at', (entry) => entry.receivedAt ?? ''],
  ['by', (entry) => whoText(entry.by)],
]

/** The same of an entry about a load: its ordinal, and the id under which its figures stand. */
export const loadColumns = (names: Names): readonly Column<EntryModel>[] => [
  ['load', (entry) => names.ordinalOf(loadIn(entry))],
  ['load_id', (entry) => names.loadOf(loadIn(entry))],
]

const loadIn = ({ body }: EntryModel): string | undefined => (body as { readonly load?: string }).load

/** How a reading was taken. */
export const takingColumns = (names: Names): readonly Column<Taking | undefined>[] => [
  ['sampled_at', (taking) => said(taking?.sampledAt)],
  ['result_at', (taking) => said(taking?.resultAt)],
  ['sample_point', (taking) => said(taking?.point)],
  ['against_water', (taking) => said(taking?.water)],
  ['taken_by', (taking) => someoneText(taking?.taker, names)],
  ['works_for', (taking) => said(taking?.employer)],
  ['instrument', (taking) => said(taking?.instrument)],
  ['certificate', (taking) => said(taking?.certificate)],
]
