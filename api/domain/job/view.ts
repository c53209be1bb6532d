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
  readonly water: readonly Said<Water>[]
  readonly slump: readonly Said<Slump>[]
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
  readonly loads: readonly LoadView[]
  readonly photos: readonly Said<Photo>[]
  readonly remarks: readonly Said<string>[]
  readonly history: readonly HistoryLine[]
  /** Entries of a later release, kept and not yet read. */
  readonly unread: number
}
