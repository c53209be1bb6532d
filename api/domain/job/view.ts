import type { BodyOf, Kind } from '../entry/registry.ts'
import type { LocalTime } from '../time.ts'
import type { KnownEntry } from './standing.ts'

/** A value that stands, with the entry that says so. */
export type Said<T> = {
  readonly hash: string
  readonly value: T
  readonly at: LocalTime
  readonly late: boolean
  /** It is said to have happened after it was recorded: flagged, never refused. */
  readonly ahead: boolean
}

/**
 * All that stands on one question that has one answer: none (not recorded), one, or several. Several are a conflict:
 * all are shown, figures are given for each, and one entry that names them all settles it.
 */
export type Fact<T> = readonly Said<T>[]

export type Ticket = Omit<BodyOf<'ticket.recorded'>, 'load'>
export type Water = BodyOf<'water.added'>['amount']
type OfLoad<K extends Kind> = Omit<BodyOf<K>, 'load'>
/** An addition with all that was said of it: when against the discharge, how much was still in the drum, who asked. */
export type WaterAddition = OfLoad<'water.added'>
export type Part = BodyOf<'placement.planned'>['parts'][number]
export type Placement = BodyOf<'placement.planned'>
export type Slump = Omit<BodyOf<'slump.measured'>, 'load'>
export type Photo = Omit<BodyOf<'photo.taken'>, 'load'> & { readonly received: boolean }

export type LoadView = {
  readonly id: string
  /** 1 for the first by arrival, else by whatever was said of it first. */
  readonly ordinal: number
  readonly ticket: Fact<Ticket>
  readonly arrived: Fact<LocalTime>
  readonly started: Fact<LocalTime>
  readonly ended: Fact<LocalTime>
  readonly left: Fact<LocalTime>
  /** Each addition, or the one "none", or "not sure". */
  readonly water: readonly Said<WaterAddition>[]
  readonly admixtures: readonly Said<OfLoad<'admixture.added'>>[]
  readonly slump: readonly Said<Slump>[]
  readonly slumpFlow: readonly Said<OfLoad<'flow.measured'>>[]
  readonly air: readonly Said<OfLoad<'air.measured'>>[]
  readonly temperatures: readonly Said<OfLoad<'temperature.measured'>>[]
  readonly density: readonly Said<OfLoad<'density.measured'>>[]
  readonly cylinders: readonly Said<OfLoad<'cylinders.made'>>[]
  readonly strength: readonly Said<OfLoad<'strength.reported'>>[]
  readonly ready: Fact<LocalTime>
  readonly paused: readonly Said<LocalTime>[]
  readonly resumed: readonly Said<LocalTime>[]
  readonly waived: readonly Said<OfLoad<'limit.waived'>>[]
  readonly accepted: readonly Said<OfLoad<'load.accepted'>>[]
  readonly rejected: readonly Said<OfLoad<'load.rejected'>>[]
  readonly signed: readonly Said<OfLoad<'ticket.signed'>>[]
  readonly leftOver: Fact<OfLoad<'concrete.left'>>
  readonly placed: readonly Said<OfLoad<'load.placed'>>[]
  /** Other ids under which this load was logged, before it was joined. */
  readonly joined: readonly string[]
  readonly photos: readonly Said<Photo>[]
  readonly remarks: readonly Said<string>[]
}

/** One line of the job's history: every entry, also those that no longer stand. */
export type HistoryLine = {
  readonly hash: string
  readonly kind: Kind
  readonly entry: KnownEntry['entry']
  readonly stands: boolean
  /** Not withdrawn: what it corrects stays down, also where it was itself corrected (SPEC L7). */
  readonly inForce: boolean
  readonly late: boolean
  readonly delayMinutes: number
  readonly receivedAt?: number
}

export type JobView = {
  readonly job: string
  readonly name: Fact<string>
  readonly zone: Fact<string>
  readonly ordered: readonly Said<BodyOf<'concrete.ordered'>['yards']>[]
  readonly customer: Fact<BodyOf<'customer.named'>>
  readonly address: Fact<BodyOf<'site.addressed'>>
  readonly placements: readonly Said<Placement>[]
  readonly mix: Fact<BodyOf<'mix.ordered'>>
  /** What was chosen of editions and sources; several that choose one thing otherwise are a conflict. */
  readonly editions: readonly Said<BodyOf<'editions.chosen'>>[]
  readonly held: readonly Said<BodyOf<'concrete.held'>>[]
  readonly balance: readonly Said<BodyOf<'balance.ordered'>>[]
  readonly promised: readonly Said<BodyOf<'delivery.promised'>>[]
  readonly calls: readonly Said<BodyOf<'dispatch.called'>>[]
  readonly checks: readonly Said<BodyOf<'base.checked'>>[]
  readonly depths: readonly Said<BodyOf<'depth.measured'>>[]
  readonly weather: readonly Said<BodyOf<'weather.observed'>>[]
  /** Temperatures that belong to no load: of the air, of the slab's surface. */
  readonly temperatures: readonly Said<BodyOf<'temperature.measured'>>[]
  readonly finish: readonly Said<BodyOf<'finish.done'>>[]
  readonly cures: readonly Said<BodyOf<'cure.applied'>>[]
  readonly covers: readonly Said<BodyOf<'cover.placed'>>[]
  readonly saws: readonly Said<BodyOf<'joint.sawn'>>[]
  readonly served: readonly Said<BodyOf<'slab.served'>>[]
  readonly rain: readonly Said<BodyOf<'rain.fell'>>[]
  /** Joins that stand, so that each can be undone. */
  readonly joins: readonly Said<BodyOf<'loads.joined'>>[]
  readonly loads: readonly LoadView[]
  readonly photos: readonly Said<Photo>[]
  readonly remarks: readonly Said<string>[]
  readonly history: readonly HistoryLine[]
  /** Entries of a later release, kept and not yet read. */
  readonly unread: number
}
