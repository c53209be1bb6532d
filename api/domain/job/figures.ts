import { minutesBetween } from '../time.ts'
import { compare, inUnit, minus, type Ratio, ratio, sum } from '../units.ts'
import type { Fact, JobView, LoadView, Said, Ticket } from './view.ts'

/** A comparison's outcome. Never "compliant", never "fault": the number and where it lies. */
export type Verdict = 'inside' | 'outside' | 'limit-not-stated' | 'not-recorded'

/** Whole minutes between two events; several where several answers stand to either. */
export type Minutes = {
  readonly minutes: readonly number[]
  /** Set where an end comes before its beginning: flagged, never refused. */
  readonly backwards: boolean
}

export type LimitCheck = {
  /** The event that this ticket's limit runs to. */
  readonly to: 'discharge-started' | 'discharge-ended'
  readonly limitMinutes: number
  readonly minutes: number
  readonly verdict: Verdict
  /** Hash of the ticket's entry: where the limit is stated. */
  readonly source: string
}

/** Water put in on site, in gallons: an exact sum, and whether it is all there is to know. */
export type WaterFigure =
  | { readonly is: 'not-recorded' }
  | { readonly is: 'none' }
  | {
      readonly is: 'given'
      readonly gallons: Ratio
      readonly alsoNotSure: boolean
      readonly alsoNone: boolean
    }
  | { readonly is: 'not-sure' }

export type LoadFigures = {
  readonly load: string
  readonly ordinal: number
  readonly batchToStart: Minutes
  readonly batchToEnd: Minutes
  readonly onSite: Minutes
  readonly limit: { readonly verdict: Verdict; readonly checks: readonly LimitCheck[] }
  readonly water: WaterFigure
  /** Several where tickets differ; empty where no ticket was recorded or it states none. */
  readonly yards: readonly Ratio[]
  readonly missing: readonly MissingKey[]
  readonly oddities: readonly OddityKey[]
}

export type MissingKey =
  | 'ticket'
  | 'batched'
  | 'limit'
  | 'yards'
  | 'arrived'
  | 'started'
  | 'ended'
  | 'left'
  | 'water'
  | 'slump'
export type OddityKey = 'times-backwards' | 'time-ahead' | 'water-none-and-some' | 'several-answers'

export type JobFigures = {
  readonly loads: readonly LoadFigures[]
  /** Sum of what was ordered; undefined where no order was recorded. */
  readonly orderedYards: Ratio | undefined
  /** Sum over the loads whose ticket states yards, one ticket each. */
  readonly ticketedYards: Ratio
  /** Loads that this sum does not count, since their yards are not recorded, not stated or in conflict. */
  readonly loadsWithoutYards: number
  readonly difference: Ratio | undefined
}

/** The figures of a job: each computed from standing entries, none typed. The same code on phone, server, checker. */
export const jobFigures = (job: JobView): JobFigures => {
  const loads = job.loads.map(loadFigures)
  const counted = loads.flatMap((load) => (load.yards.length === 1 ? [load.yards[0]!] : []))
  const orders = job.ordered.flatMap(({ value }) => {
    const yards = inUnit(value, 'yd3')
    return yards.ok ? [yards.value] : []
  })
  const orderedYards = orders.length > 0 ? sum(orders) : undefined
  const ticketedYards = sum(counted)
  return {
    loads,
    orderedYards,
    ticketedYards,
    loadsWithoutYards: loads.length - counted.length,
    difference: orderedYards && minus(ticketedYards, orderedYards),
  }
}

const loadFigures = (load: LoadView): LoadFigures => {
  const batched = load.ticket.flatMap(({ value }) =>
    value.batchedAt.is === 'given' ? [value.batchedAt.at] : [],
  )
  const batchToStart = minutesOf(batched, times(load.started))
  const batchToEnd = minutesOf(batched, times(load.ended))
  const onSite = minutesOf(times(load.arrived), times(load.left))
  const water = waterFigure(load)
  return {
    load: load.id,
    ordinal: load.ordinal,
    batchToStart,
    batchToEnd,
    onSite,
    limit: limitFigure(load),
    water,
    yards: distinct(
      load.ticket.flatMap(({ value }) => {
        const yards = value.yards.is === 'given' ? inUnit(value.yards, 'yd3') : undefined
        return yards?.ok ? [yards.value] : []
      }),
    ),
    missing: missingOf(load),
    oddities: odditiesOf(
      load,
      [
        batchToStart,
        batchToEnd,
        onSite,
        minutesOf(times(load.arrived), times(load.started)),
        minutesOf(times(load.started), times(load.ended)),
        minutesOf(times(load.ended), times(load.left)),
        minutesOf(batched, whenSaid([...load.water, ...load.slump])),
        minutesOf(whenSaid([...load.water, ...load.slump]), times(load.left)),
      ],
      water,
    ),
  }
}

const whenSaid = (all: readonly Said<unknown>[]): string[] => all.map((s) => s.at)

const times = (fact: Fact<string>): string[] => fact.map((s) => s.value)

const distinct = (all: readonly Ratio[]): Ratio[] =>
  all.filter((a, i) => all.findIndex((b) => compare(a, b) === 0) === i).sort(compare)

/** Minutes for each pair of answers that stand. */
const minutesOf = (from: readonly string[], to: readonly string[]): Minutes => {
  const all = from.flatMap((a) =>
    to.map((b) => minutesBetween(a, b)).filter((m): m is number => m !== undefined),
  )
  const minutes = [...new Set(all)].sort((a, b) => a - b)
  return { minutes, backwards: minutes.some((m) => m < 0) }
}

/** Each standing ticket's own limit against the event that it names. No ticket's limit is ever assumed. */
const limitFigure = (load: LoadView): LoadFigures['limit'] => {
  if (load.ticket.length === 0) return { verdict: 'not-recorded', checks: [] }
  const checks = load.ticket.flatMap(({ value, hash }) => checksOf(load, value, hash))
  if (checks.some((c) => c.verdict === 'outside')) return { verdict: 'outside', checks }
  const stated = load.ticket.filter(({ value }) => value.limit.is === 'given')
  if (stated.length === 0) return { verdict: 'limit-not-stated', checks }
  // Inside only if every ticket that states a limit could be compared.
  const compared = stated.every(({ hash }) => checks.some((c) => c.source === hash))
  return { verdict: compared ? 'inside' : 'not-recorded', checks }
}

const checksOf = (load: LoadView, ticket: Ticket, source: string): LimitCheck[] => {
  if (ticket.limit.is !== 'given' || ticket.batchedAt.is !== 'given') return []
  const limitMinutes = Number(ticket.limit.text)
  const { to } = ticket.limit
  const events = times(to === 'discharge-ended' ? load.ended : load.started)
  // An end before its beginning is an oddity of the log, and says nothing about a limit.
  const forward = minutesOf([ticket.batchedAt.at], events).minutes.filter((minutes) => minutes >= 0)
  return forward.map((minutes) => ({
    to,
    limitMinutes,
    minutes,
    source,
    verdict: minutes <= limitMinutes ? 'inside' : 'outside',
  }))
}

const waterFigure = (load: LoadView): WaterFigure => {
  const amounts = load.water.map((s) => s.value)
  const given = amounts.flatMap((amount) => {
    const gallons = amount.is === 'given' ? inUnit(amount, 'gal') : undefined
    return gallons?.ok ? [gallons.value] : []
  })
  const alsoNotSure = amounts.some((a) => a.is === 'not-sure')
  const alsoNone = amounts.some((a) => a.is === 'none')
  if (given.length > 0) return { is: 'given', gallons: sum(given), alsoNotSure, alsoNone }
  if (alsoNotSure) return { is: 'not-sure' }
  return alsoNone ? { is: 'none' } : { is: 'not-recorded' }
}

const missingOf = (load: LoadView): MissingKey[] => {
  const ticket = load.ticket[0]?.value
  const missing: [MissingKey, boolean][] = [
    ['ticket', !ticket],
    ['batched', ticket?.batchedAt.is === 'not-stated'],
    ['limit', ticket?.limit.is === 'not-stated'],
    ['yards', ticket?.yards.is === 'not-stated'],
    ['arrived', load.arrived.length === 0],
    ['water', load.water.length === 0],
    ['slump', load.slump.length === 0],
    ['started', load.started.length === 0],
    ['ended', load.ended.length === 0],
    ['left', load.left.length === 0],
  ]
  return missing.flatMap(([key, is]) => (is ? [key] : []))
}

const odditiesOf = (load: LoadView, spans: readonly Minutes[], water: WaterFigure): OddityKey[] => {
  const single = [load.ticket, load.arrived, load.started, load.ended, load.left]
  const none = water.is === 'given' && water.alsoNone && compare(water.gallons, ratio(0n)) > 0
  const odd: [OddityKey, boolean][] = [
    ['times-backwards', spans.some((s) => s.backwards)],
    ['time-ahead', [...single, load.water, load.slump].flat().some((s) => s.ahead)],
    ['water-none-and-some', none],
    ['several-answers', single.some((fact) => fact.length > 1)],
  ]
  return odd.flatMap(([key, is]) => (is ? [key] : []))
}
