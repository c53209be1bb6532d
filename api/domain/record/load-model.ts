import type { BodyOf, Kind } from '../entry/registry.ts'
import type { LoadFigures, MissingKey, OddityKey } from '../job/figures.ts'
import type { LimitFigure, Verdict } from '../job/limit.ts'
import type { Minutes } from '../job/minutes.ts'
import type { ToleranceCheck } from '../job/tolerance.ts'
import type { LoadView, Photo, Said, Slump, Ticket, WaterAddition } from '../job/view.ts'
import type { Allowance, LastPart, PartRatio, Range, TicketWater } from '../job/water-cement.ts'
import { showFixed, showNumber } from '../units.ts'
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
  readonly part?: string
  readonly where?: string
  /** Whether the server said, by an entry of its own, that the whole of it had arrived. */
  readonly received: YesNo
}

export type RemarkModel = SaidModel & { readonly text: string; readonly lang: string }
export type TimeModel = SaidModel

/** An entry's body as it stands, without the load that the list belongs to. */
export type BodyModel<T> = SaidModel & { readonly body: T }
type OfLoad<K extends Kind> = BodyModel<Omit<BodyOf<K>, 'load'>>

/**
 * Gallons by when they went in, each in at most two decimals. Of `before` and `afterBegan`, so much as nobody said and the
 * recorded times alone make plain stands again in `beforeByTimes` and `afterBeganByTimes`.
 */
export type StagesModel = {
  readonly [S in
    | 'before'
    | 'afterBegan'
    | 'inTransit'
    | 'notSaid'
    | 'beforeByTimes'
    | 'afterBeganByTimes']: string
}

/** Gallons per yard and gallons over its share in at most two decimals; `range` for the least and the most, by eye. */
export type LastPartModel = {
  readonly gallonsPerYard: string
  readonly over: string
  readonly range?: {
    readonly gallonsPerYard: readonly [string, string]
    readonly over: readonly [string, string]
  }
  readonly byEye: YesNo
  readonly byTimes: YesNo
}

/** What one ticket's allowance and batch weights come to: gallons in at most two decimals, ratios in three. */
export type TicketWaterModel = {
  readonly ticket: string
  readonly allowance:
    | {
        readonly is: 'given'
        readonly allowed: string
        /** Absent where no water was logged, or nobody is sure of any. */
        readonly added?: string
        /** Somebody is not sure of a further amount: `added` and `over` are the least that they can be. */
        readonly atLeast: YesNo
        /** Absent where it isn't known. */
        readonly over?: string
        readonly verdict: Verdict
        readonly lastPart?: LastPartModel
      }
    | { readonly is: 'not-stated' }
    | { readonly is: 'not-recorded' }
  readonly ratios: readonly {
    readonly part: PartRatio['part']
    readonly ratio: string
    /** In two decimals, of the exact ratio: what was judged by eye is not known to three. */
    readonly about: string
    readonly range?: readonly [string, string]
    readonly byEye: YesNo
    /** Which water reached the part rests on the recorded times alone. */
    readonly byTimes: YesNo
  }[]
  readonly maxRatio?: string
}

/** A reading beside what was asked for; inches or per cent in at most two decimals. */
export type ToleranceModel = {
  readonly of: ToleranceCheck['of']
  readonly reading: string
  readonly value: string
  readonly from?: string
  readonly to?: string
  readonly source?: string
  readonly statedBy?: 'order' | 'ticket'
  /** A slump that was judged by eye is no measurement. */
  readonly byEye: YesNo
  readonly verdict: Verdict
}

/** One load: each list holds all answers that stand; none is "not recorded", several are a conflict and all count. */
export type LoadModel = {
  readonly load: string
  readonly ordinal: number
  /** Other ids under which it was logged, before it was joined. */
  readonly joined: readonly string[]
  readonly tickets: readonly (SaidModel & Ticket)[]
  readonly arrived: readonly TimeModel[]
  readonly started: readonly TimeModel[]
  readonly ended: readonly TimeModel[]
  readonly left: readonly TimeModel[]
  readonly ready: readonly TimeModel[]
  readonly paused: readonly TimeModel[]
  readonly resumed: readonly TimeModel[]
  readonly waived: readonly OfLoad<'limit.waived'>[]
  readonly accepted: readonly OfLoad<'load.accepted'>[]
  readonly rejected: readonly OfLoad<'load.rejected'>[]
  readonly signed: readonly OfLoad<'ticket.signed'>[]
  readonly leftOver: readonly OfLoad<'concrete.left'>[]
  readonly placed: readonly OfLoad<'load.placed'>[]
  readonly admixtures: readonly OfLoad<'admixture.added'>[]
  readonly air: readonly OfLoad<'air.measured'>[]
  readonly temperatures: readonly OfLoad<'temperature.measured'>[]
  readonly slumpFlow: readonly OfLoad<'flow.measured'>[]
  readonly density: readonly OfLoad<'density.measured'>[]
  readonly cylinders: readonly OfLoad<'cylinders.made'>[]
  readonly strength: readonly OfLoad<'strength.reported'>[]
  readonly batchToArrival: Span
  readonly batchToStart: Span
  readonly batchToEnd: Span
  readonly onSite: Span
  readonly limit: LimitFigure
  readonly water: {
    readonly sum: WaterSum
    readonly answers: readonly (SaidModel & WaterAddition)[]
    readonly stages: StagesModel
  }
  readonly ticketWaters: readonly TicketWaterModel[]
  readonly slump: readonly (SaidModel & Slump)[]
  /** Yards that the tickets state, in yd³ with at most two decimals; several where tickets differ. */
  readonly yards: readonly string[]
  /** Ticketed less left over, in yd³ with at most two decimals; absent where that isn't known. */
  readonly placedYards?: string
  readonly tolerances: readonly ToleranceModel[]
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
  const bodies = <T>(all: readonly Said<T>[]): BodyModel<T>[] => bodyModels(all, sayings)
  const unstated = load.ticket.length > 0 && load.ticket.every((s) => s.value.batchedAt.is === 'not-stated')
  return {
    load: load.id,
    ordinal: load.ordinal,
    joined: load.joined,
    tickets: load.ticket.map((s) => ({ ...said(s.hash), ...s.value })),
    arrived: times(load.arrived),
    started: times(load.started),
    ended: times(load.ended),
    left: times(load.left),
    ready: times(load.ready),
    paused: times(load.paused),
    resumed: times(load.resumed),
    waived: bodies(load.waived),
    accepted: bodies(load.accepted),
    rejected: bodies(load.rejected),
    signed: bodies(load.signed),
    leftOver: bodies(load.leftOver),
    placed: bodies(load.placed),
    admixtures: bodies(load.admixtures),
    air: bodies(load.air),
    temperatures: bodies(load.temperatures),
    slumpFlow: bodies(load.slumpFlow),
    density: bodies(load.density),
    cylinders: bodies(load.cylinders),
    strength: bodies(load.strength),
    batchToArrival: spanOf(figures.batchToArrival, unstated),
    batchToStart: spanOf(figures.batchToStart, unstated),
    batchToEnd: spanOf(figures.batchToEnd, unstated),
    onSite: spanOf(figures.onSite, false),
    limit: figures.limit,
    water: {
      sum: waterSum(figures),
      answers: load.water.map((s) => ({ ...said(s.hash), ...s.value })),
      stages: stagesModel(figures),
    },
    ticketWaters: figures.ticketWaters.map(ticketWaterModel),
    tolerances: figures.tolerances.map(toleranceModel),
    slump: load.slump.map((s) => ({ ...said(s.hash), ...s.value })),
    yards: figures.yards.map((yards) => showNumber(yards)),
    ...(figures.placed ? { placedYards: showNumber(figures.placed) } : {}),
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

const stagesModel = ({ waterByStage }: LoadFigures): StagesModel => ({
  before: showNumber(waterByStage.before),
  afterBegan: showNumber(waterByStage.afterBegan),
  inTransit: showNumber(waterByStage.inTransit),
  notSaid: showNumber(waterByStage.notSaid),
  beforeByTimes: showNumber(waterByStage.byTimes.before),
  afterBeganByTimes: showNumber(waterByStage.byTimes.afterBegan),
})

const RATIO_DIGITS = 3
const ABOUT_DIGITS = 2

const ticketWaterModel = ({ source, allowance, ratios, maxRatio }: TicketWater): TicketWaterModel => ({
  ticket: source,
  allowance: allowanceModel(allowance),
  ratios: ratios.map(({ part, ratio, range, byEye, byTimes }) => ({
    part,
    ratio: showFixed(ratio, RATIO_DIGITS),
    about: showFixed(ratio, ABOUT_DIGITS),
    ...(range
      ? { range: [showFixed(range[0], RATIO_DIGITS), showFixed(range[1], RATIO_DIGITS)] as const }
      : {}),
    byEye: yesNo(byEye),
    byTimes: yesNo(byTimes),
  })),
  ...(maxRatio ? { maxRatio: showNumber(maxRatio, RATIO_DIGITS) } : {}),
})

const allowanceModel = (allowance: Allowance): TicketWaterModel['allowance'] => {
  if (allowance.is !== 'given') return { is: allowance.is }
  const { allowed, added, atLeast, over, verdict, lastPart } = allowance
  return {
    is: 'given',
    allowed: showNumber(allowed),
    ...(added ? { added: showNumber(added) } : {}),
    atLeast: yesNo(atLeast),
    ...(over ? { over: showNumber(over) } : {}),
    verdict,
    ...(lastPart ? { lastPart: lastPartModel(lastPart) } : {}),
  }
}

const lastPartModel = ({ gallonsPerYard, over, range, byEye, byTimes }: LastPart): LastPartModel => ({
  gallonsPerYard: showNumber(gallonsPerYard),
  over: showNumber(over),
  ...(range ? { range: { gallonsPerYard: ends(range.gallonsPerYard), over: ends(range.over) } } : {}),
  byEye: yesNo(byEye),
  byTimes: yesNo(byTimes),
})

const ends = ([least, most]: Range): [string, string] => [showNumber(least), showNumber(most)]

const toleranceModel = ({
  of,
  reading,
  value,
  from,
  to,
  source,
  statedBy,
  byEye,
  verdict,
}: ToleranceCheck): ToleranceModel => ({
  of,
  reading,
  value: showNumber(value),
  ...(from ? { from: showNumber(from) } : {}),
  ...(to ? { to: showNumber(to) } : {}),
  ...(source === undefined ? {} : { source }),
  ...(statedBy === undefined ? {} : { statedBy }),
  byEye: yesNo(byEye),
  verdict,
})

export const bodyModels = <T>(all: readonly Said<T>[], { said }: Sayings): BodyModel<T>[] =>
  all.map(({ hash, value }) => ({ ...said(hash), body: value }))

export const photoModel = ({ hash, value }: Said<Photo>, { said }: Sayings): PhotoModel => ({
  ...said(hash),
  photo: value.photo,
  bytes: value.bytes,
  type: value.type,
  shows: value.shows,
  ...(value.part === undefined ? {} : { part: value.part }),
  ...(value.where === undefined ? {} : { where: value.where }),
  received: yesNo(value.received),
})

export const remarkModel = ({ hash, value }: Said<string>, { said, langOf }: Sayings): RemarkModel => ({
  ...said(hash),
  text: value,
  lang: langOf(hash),
})
