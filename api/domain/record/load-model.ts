import type { LimitCheck, LoadFigures, Minutes, MissingKey, OddityKey, Verdict } from '../job/figures.ts'
import type { LoadView, Photo, Said, Slump, Ticket, Water } from '../job/view.ts'
import { showNumber } from '../units.ts'
import { type SaidModel, type YesNo, yesNo } from './said.ts'

/** Minutes between two events: several where several answers stand. Not stated: the ticket prints no batching time. */
export type Span =
  | { readonly is: 'given'; readonly minutes: readonly number[]; readonly backwards: YesNo }
  | { readonly is: 'not-recorded' }
  | { readonly is: 'not-stated' }

/** Water put in on site. `gallons` is a computed sum in at most two decimals; `also` names answers beside it. */
export type WaterSum =
  | { readonly is: 'given'; readonly gallons: string; readonly also: readonly ('none' | 'not-sure')[] }
  | { readonly is: 'none' | 'not-sure' | 'not-recorded' }

export type PhotoModel = SaidModel & {
  /** SHA-256 of the file as the phone got it. */
  readonly photo: string
  readonly bytes: number
  readonly type: Photo['type']
  readonly shows: Photo['shows']
  /** Whether the server said, by an entry of its own, that the whole of it had arrived. */
  readonly received: YesNo
}

export type RemarkModel = SaidModel & { readonly text: string; readonly lang: string }
export type TimeModel = SaidModel

/** One load: each list holds all answers that stand; none is "not recorded", several are a conflict and all count. */
export type LoadModel = {
  readonly load: string
  readonly ordinal: number
  readonly tickets: readonly (SaidModel & Ticket)[]
  readonly arrived: readonly TimeModel[]
  readonly started: readonly TimeModel[]
  readonly ended: readonly TimeModel[]
  readonly left: readonly TimeModel[]
  readonly batchToStart: Span
  readonly batchToEnd: Span
  readonly onSite: Span
  readonly limit: { readonly verdict: Verdict; readonly checks: readonly LimitCheck[] }
  readonly water: {
    readonly sum: WaterSum
    readonly answers: readonly (SaidModel & { readonly amount: Water })[]
  }
  readonly slump: readonly (SaidModel & Slump)[]
  /** Yards that the tickets state, in yd³ with at most two decimals; several where tickets differ. */
  readonly yards: readonly string[]
  readonly photos: readonly PhotoModel[]
  readonly remarks: readonly RemarkModel[]
  readonly missing: readonly MissingKey[]
  readonly oddities: readonly OddityKey[]
}

/** What the job's model lends: who said an entry, and in which language. */
export type Sayings = {
  readonly said: (hash: string) => SaidModel
  readonly langOf: (hash: string) => string
}

export const loadModel = (load: LoadView, figures: LoadFigures, sayings: Sayings): LoadModel => {
  const { said } = sayings
  const times = (fact: readonly Said<string>[]) => fact.map((s) => said(s.hash))
  const unstated = load.ticket.length > 0 && load.ticket.every((s) => s.value.batchedAt.is === 'not-stated')
  return {
    load: load.id,
    ordinal: load.ordinal,
    tickets: load.ticket.map((s) => ({ ...said(s.hash), ...s.value })),
    arrived: times(load.arrived),
    started: times(load.started),
    ended: times(load.ended),
    left: times(load.left),
    batchToStart: spanOf(figures.batchToStart, unstated),
    batchToEnd: spanOf(figures.batchToEnd, unstated),
    onSite: spanOf(figures.onSite, false),
    limit: figures.limit,
    water: { sum: waterSum(figures), answers: load.water.map((s) => ({ ...said(s.hash), amount: s.value })) },
    slump: load.slump.map((s) => ({ ...said(s.hash), ...s.value })),
    yards: figures.yards.map((yards) => showNumber(yards)),
    photos: load.photos.map((s) => photoModel(s, sayings)),
    remarks: load.remarks.map((s) => remarkModel(s, sayings)),
    missing: figures.missing,
    oddities: figures.oddities,
  }
}

const spanOf = ({ minutes, backwards }: Minutes, unstated: boolean): Span => {
  if (minutes.length > 0) return { is: 'given', minutes, backwards: yesNo(backwards) }
  return { is: unstated ? 'not-stated' : 'not-recorded' }
}

const waterSum = ({ water }: LoadFigures): WaterSum => {
  if (water.is !== 'given') return { is: water.is }
  const also = [
    ...(water.alsoNone ? (['none'] as const) : []),
    ...(water.alsoNotSure ? (['not-sure'] as const) : []),
  ]
  return { is: 'given', gallons: showNumber(water.gallons), also }
}

export const photoModel = ({ hash, value }: Said<Photo>, { said }: Sayings): PhotoModel => ({
  ...said(hash),
  photo: value.photo,
  bytes: value.bytes,
  type: value.type,
  shows: value.shows,
  received: yesNo(value.received),
})

export const remarkModel = ({ hash, value }: Said<string>, { said, langOf }: Sayings): RemarkModel => ({
  ...said(hash),
  text: value,
  lang: langOf(hash),
})
