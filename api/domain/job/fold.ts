import type { Entry, EntryOf } from '../entry/envelope.ts'
import { isUnread } from '../entry/read.ts'
import type { Kind } from '../entry/registry.ts'
import { readLocalTime } from '../time.ts'
import {
  isAhead,
  isLate,
  type KnownEntry,
  knownEntries,
  type LoggedEntry,
  recordingDelayMinutes,
  standingEntries,
} from './standing.ts'
import type { JobView, LoadView, Photo, Said } from './view.ts'

/** Lists that grow while the standing entries are read in order; only this file sees them unfinished. */
type Draft = {
  name: Said<string>[]
  zone: Said<string>[]
  ordered: JobView['ordered'][number][]
  loads: Map<string, LoadDraft>
  photos: Said<Photo>[]
  remarks: Said<string>[]
  received: Set<string>
}
type LoadDraft = { -readonly [K in keyof Omit<LoadView, 'id' | 'ordinal'>]: LoadView[K][number][] }

const said = <T>(e: KnownEntry, value: T): Said<T> => ({
  hash: e.hash,
  value,
  at: e.entry.occurredAt,
  late: isLate(e.entry),
  ahead: isAhead(e.entry),
})

const loadOf = (draft: Draft, id: string): LoadDraft => {
  const known = draft.loads.get(id)
  if (known) return known
  const fresh: LoadDraft = {
    ticket: [],
    arrived: [],
    started: [],
    ended: [],
    left: [],
    water: [],
    slump: [],
    photos: [],
    remarks: [],
  }
  draft.loads.set(id, fresh)
  return fresh
}

type Take<K extends Kind> = (draft: Draft, entry: EntryOf<K>, e: KnownEntry) => void
const nothing = () => {}

/** One line a kind; the compiler asks for the missing one. */
const take: { readonly [K in Kind]: Take<K> } = {
  'company.founded': nothing,
  'owner.named': nothing,
  'person.added': nothing,
  'role.changed': nothing,
  'device.enrolled': nothing,
  'device.withdrawn': nothing,
  'entry.refused': nothing,
  'job.opened': (draft, { body }, e) => {
    draft.name.push(said(e, body.name))
    draft.zone.push(said(e, body.zone))
  },
  'concrete.ordered': (draft, { body }, e) => draft.ordered.push(said(e, body.yards)),
  'ticket.recorded': (draft, { body: { load, ...ticket } }, e) =>
    loadOf(draft, load).ticket.push(said(e, ticket)),
  'load.arrived': (draft, { body, occurredAt }, e) =>
    loadOf(draft, body.load).arrived.push(said(e, occurredAt)),
  'discharge.started': (draft, { body, occurredAt }, e) =>
    loadOf(draft, body.load).started.push(said(e, occurredAt)),
  'discharge.ended': (draft, { body, occurredAt }, e) =>
    loadOf(draft, body.load).ended.push(said(e, occurredAt)),
  'load.left': (draft, { body, occurredAt }, e) => loadOf(draft, body.load).left.push(said(e, occurredAt)),
  'water.added': (draft, { body }, e) => loadOf(draft, body.load).water.push(said(e, body.amount)),
  'slump.measured': (draft, { body: { load, ...slump } }, e) =>
    loadOf(draft, load).slump.push(said(e, slump)),
  'photo.taken': (draft, { body: { load, ...photo } }, e) => {
    const list = load === undefined ? draft.photos : loadOf(draft, load).photos
    list.push(said(e, { ...photo, received: draft.received.has(photo.photo) }))
  },
  'photo.received': nothing,
  'remark.made': (draft, { body }, e) => {
    const list = body.load === undefined ? draft.remarks : loadOf(draft, body.load).remarks
    list.push(said(e, body.remark.text))
  },
  'entry.withdrawn': nothing,
}

/**
 * What a job's entries come to. A function of the set of entries: their order, repeats and how they arrived make no
 * difference. Phone, server and checker run this same code.
 */
export const foldJob = (job: string, entries: readonly LoggedEntry[]): JobView => {
  const { all, inForce, stands } = standingEntries(knownEntries(entries))
  const draft: Draft = {
    name: [],
    zone: [],
    ordered: [],
    loads: new Map(),
    photos: [],
    remarks: [],
    received: new Set(all.flatMap((e) => (e.entry.kind === 'photo.received' ? [e.entry.body.photo] : []))),
  }
  for (const e of all) if (stands.has(e.hash)) takeOne(draft, e)
  const unread = new Set(entries.filter(isUnread).map((e) => e.hash)).size
  return {
    job,
    name: draft.name,
    zone: draft.zone,
    ordered: draft.ordered,
    loads: numbered(draft.loads),
    photos: draft.photos,
    remarks: draft.remarks,
    history: all.map((e) => ({
      hash: e.hash,
      kind: e.entry.kind,
      entry: e.entry,
      stands: stands.has(e.hash),
      inForce: inForce.has(e.hash),
      late: isLate(e.entry),
      delayMinutes: recordingDelayMinutes(e.entry),
      ...(e.receivedAt === undefined ? {} : { receivedAt: e.receivedAt }),
    })),
    unread,
  }
}

const takeOne = (draft: Draft, e: KnownEntry): void =>
  (take[e.entry.kind] as (draft: Draft, entry: Entry, e: KnownEntry) => void)(draft, e.entry, e)

/** Loads by arrival; one whose arrival nobody logged, by the first thing said of it. */
const numbered = (loads: ReadonlyMap<string, LoadDraft>): LoadView[] => {
  const firstTime = (load: LoadDraft): number => {
    const at = (list: readonly Said<unknown>[]) => list.map((s) => readLocalTime(s.at) ?? 0)
    const first = load.arrived.length > 0 ? at(load.arrived) : Object.values(load).flatMap((list) => at(list))
    return Math.min(...first)
  }
  return [...loads]
    .map(([id, load]) => ({ id, load, first: firstTime(load) }))
    .sort((a, b) => a.first - b.first || (a.id < b.id ? -1 : 1))
    .map(({ id, load }, i) => ({ id, ordinal: i + 1, ...load }))
}
