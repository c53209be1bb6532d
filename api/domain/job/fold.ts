import type { Entry, EntryOf } from '../entry/envelope.ts'
import { isUnread } from '../entry/read.ts'
import type { Kind } from '../entry/registry.ts'
import { readLocalTime } from '../time.ts'
import { joinedLoads } from './join.ts'
import {
  isAhead,
  isLate,
  type KnownEntry,
  knownEntries,
  type LoggedEntry,
  ofKind,
  recordingDelayMinutes,
  standingEntries,
} from './standing.ts'
import type { JobView, LoadView, Said } from './view.ts'

/** Lists that grow while the standing entries are read in order; only this file sees them unfinished. */
type Lists<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer One)[] ? One[] : never }
type JobLists = Lists<Omit<JobView, 'job' | 'loads' | 'history' | 'unread'>>
type LoadDraft = Lists<Omit<LoadView, 'id' | 'ordinal' | 'joined'>>
type Draft = {
  readonly lists: JobLists
  readonly loads: Map<string, LoadDraft>
  /** The load that an id stands for, after all joins. */
  readonly loadId: (id: string) => string
  readonly idsOf: Map<string, Set<string>>
  readonly received: ReadonlySet<string>
}

const said = <T>(e: KnownEntry, value: T): Said<T> => ({
  hash: e.hash,
  value,
  at: e.entry.occurredAt,
  late: isLate(e.entry),
  ahead: isAhead(e.entry),
})

/** A job and a load of which nothing was said. */
export const emptyJob = (): JobLists => ({
  name: [],
  zone: [],
  ordered: [],
  customer: [],
  address: [],
  placements: [],
  mix: [],
  editions: [],
  held: [],
  balance: [],
  promised: [],
  calls: [],
  checks: [],
  depths: [],
  weather: [],
  temperatures: [],
  finish: [],
  cures: [],
  covers: [],
  saws: [],
  served: [],
  rain: [],
  joins: [],
  photos: [],
  remarks: [],
})
export const emptyLoad = (): LoadDraft => ({
  ticket: [],
  arrived: [],
  started: [],
  ended: [],
  left: [],
  water: [],
  admixtures: [],
  slump: [],
  slumpFlow: [],
  air: [],
  temperatures: [],
  density: [],
  cylinders: [],
  strength: [],
  ready: [],
  paused: [],
  resumed: [],
  waived: [],
  accepted: [],
  rejected: [],
  signed: [],
  leftOver: [],
  placed: [],
  photos: [],
  remarks: [],
})

const loadOf = (draft: Draft, given: string): LoadDraft => {
  const id = draft.loadId(given)
  const ids = draft.idsOf.get(id)
  if (ids) ids.add(given)
  else draft.idsOf.set(id, new Set([given]))
  const known = draft.loads.get(id)
  if (known) return known
  const fresh = emptyLoad()
  draft.loads.set(id, fresh)
  return fresh
}

type Take<K extends Kind> = (draft: Draft, entry: EntryOf<K>, e: KnownEntry) => void
const nothing = () => {}

/** What is said of the whole job goes on the list of that name, body and all. */
const onJob =
  <K extends Kind>(list: keyof JobLists): Take<K> =>
  ({ lists }, { body }, e) => {
    ;(lists[list] as Said<unknown>[]).push(said(e, body))
  }
/** What is said of a load goes on that load's list; the load itself is no part of the value. */
const onLoad =
  <K extends Kind>(list: keyof LoadDraft): Take<K> =>
  (draft, { body }, e) => {
    const { load, ...value } = body as { load: string }
    ;(loadOf(draft, load)[list] as Said<unknown>[]).push(said(e, value))
  }
const stamp =
  <K extends Kind>(
    list: 'arrived' | 'ready' | 'started' | 'paused' | 'resumed' | 'ended' | 'left',
  ): Take<K> =>
  (draft, { body, occurredAt }, e) => {
    loadOf(draft, (body as { load: string }).load)[list].push(said(e, occurredAt))
  }

/** One line a kind; the compiler asks for the missing one. */
const take: { readonly [K in Kind]: Take<K> } = {
  'company.founded': nothing,
  'owner.named': nothing,
  'person.added': nothing,
  'role.changed': nothing,
  'device.enrolled': nothing,
  'device.withdrawn': nothing,
  'entry.refused': nothing,
  'checkpoint.stamped': nothing,
  'push.decided': nothing,
  'push.quarantined': nothing,
  'photo.received': nothing,
  'entry.withdrawn': nothing,
  'job.opened': ({ lists }, { body }, e) => {
    lists.name.push(said(e, body.name))
    lists.zone.push(said(e, body.zone))
  },
  'concrete.ordered': ({ lists }, { body }, e) => lists.ordered.push(said(e, body.yards)),
  'customer.named': onJob('customer'),
  'site.addressed': onJob('address'),
  'placement.planned': onJob('placements'),
  'mix.ordered': onJob('mix'),
  'editions.chosen': onJob('editions'),
  'concrete.held': onJob('held'),
  'balance.ordered': onJob('balance'),
  'delivery.promised': onJob('promised'),
  'dispatch.called': onJob('calls'),
  'base.checked': onJob('checks'),
  'depth.measured': onJob('depths'),
  'weather.observed': onJob('weather'),
  'finish.done': onJob('finish'),
  'cure.applied': onJob('cures'),
  'cover.placed': onJob('covers'),
  'joint.sawn': onJob('saws'),
  'slab.served': onJob('served'),
  'rain.fell': onJob('rain'),
  'loads.joined': onJob('joins'),
  'ticket.recorded': onLoad('ticket'),
  'load.arrived': stamp('arrived'),
  'crew.ready': stamp('ready'),
  'discharge.started': stamp('started'),
  'discharge.paused': stamp('paused'),
  'discharge.resumed': stamp('resumed'),
  'discharge.ended': stamp('ended'),
  'load.left': stamp('left'),
  'water.added': onLoad('water'),
  'admixture.added': onLoad('admixtures'),
  'slump.measured': onLoad('slump'),
  'flow.measured': onLoad('slumpFlow'),
  'air.measured': onLoad('air'),
  'density.measured': onLoad('density'),
  'cylinders.made': onLoad('cylinders'),
  'strength.reported': onLoad('strength'),
  'temperature.measured': (draft, { body: { load, ...reading } }, e) => {
    const list = load === undefined ? draft.lists.temperatures : loadOf(draft, load).temperatures
    list.push(said(e, reading))
  },
  'limit.waived': onLoad('waived'),
  'load.accepted': onLoad('accepted'),
  'load.rejected': onLoad('rejected'),
  'ticket.signed': onLoad('signed'),
  'concrete.left': onLoad('leftOver'),
  'load.placed': onLoad('placed'),
  'photo.taken': (draft, { body: { load, ...photo } }, e) => {
    const list = load === undefined ? draft.lists.photos : loadOf(draft, load).photos
    list.push(said(e, { ...photo, received: draft.received.has(photo.photo) }))
  },
  'remark.made': (draft, { body }, e) => {
    const list = body.load === undefined ? draft.lists.remarks : loadOf(draft, body.load).remarks
    list.push(said(e, body.remark.text))
  },
}

/**
 * What a job's entries come to. A function of the set of entries: their order, repeats and how they arrived make no
 * difference. Phone, server and checker run this same code.
 */
export const foldJob = (job: string, entries: readonly LoggedEntry[]): JobView => {
  const { all, inForce, stands } = standingEntries(knownEntries(entries))
  const standing = all.filter((e) => stands.has(e.hash))
  const draft: Draft = {
    lists: emptyJob(),
    loads: new Map(),
    loadId: joinedLoads(ofKind(standing, 'loads.joined').map((e) => e.entry.body.loads)),
    idsOf: new Map(),
    received: new Set(all.flatMap((e) => (e.entry.kind === 'photo.received' ? [e.entry.body.photo] : []))),
  }
  for (const e of standing) takeOne(draft, e)
  const unread = new Set(entries.filter(isUnread).map((e) => e.hash)).size
  return {
    job,
    ...draft.lists,
    loads: numbered(draft),
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
const numbered = ({ loads, idsOf }: Draft): LoadView[] => {
  const firstTime = (load: LoadDraft): number => {
    const at = (list: readonly Said<unknown>[]) => list.map((s) => readLocalTime(s.at) ?? 0)
    const first = load.arrived.length > 0 ? at(load.arrived) : Object.values(load).flatMap((list) => at(list))
    return Math.min(...first)
  }
  return [...loads]
    .map(([id, load]) => ({ id, load, first: firstTime(load) }))
    .sort((a, b) => a.first - b.first || (a.id < b.id ? -1 : 1))
    .map(({ id, load }, i) => {
      const joined = [...idsOf.get(id)!].filter((other) => other !== id).sort()
      return { id, ordinal: i + 1, joined, ...load }
    })
}
