import { compare, inUnit, minus, type Ratio, ratio, sum } from '../units.ts'
import { type EdgeGap, edgeGaps } from './edge-gaps.ts'
import { batchingTimes, type LimitFigure, limitFigure } from './limit.ts'
import { type Minutes, minutesOf } from './minutes.ts'
import { gapsOf, type JobGap } from './missing.ts'
import { type ToleranceCheck, toleranceChecks } from './tolerance.ts'
import type { Fact, JobView, LoadView, Said } from './view.ts'
import { formedYards, orderedYards, overFormedPercent, placedOf, placedYards } from './volume.ts'
import { type TicketWater, ticketWaters, type WaterByStage, waterByStage } from './water-cement.ts'

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
  readonly limit: LimitFigure
  readonly water: WaterFigure
  readonly waterByStage: WaterByStage
  /** What each standing ticket's allowance and batch weights come to with that water. */
  readonly ticketWaters: readonly TicketWater[]
  readonly tolerances: readonly ToleranceCheck[]
  /** Several where tickets differ; empty where no ticket was recorded or it states none. */
  readonly yards: readonly Ratio[]
  /** Ticketed less left over; undefined where that isn't known. */
  readonly placed: Ratio | undefined
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
  /** By the planned parts; undefined where nothing was planned. */
  readonly formedYards: Ratio | undefined
  /** Sum over the loads of which it is known. */
  readonly placedYards: Ratio
  readonly loadsWithoutPlaced: number
  /** Placed above formed, in per cent of formed. */
  readonly overFormed: Ratio | undefined
  readonly edgeGaps: readonly EdgeGap[]
  readonly gaps: readonly JobGap[]
}

/** The figures of a job: each computed from standing entries, none typed. The same code on phone, server, checker. */
export const jobFigures = (job: JobView): JobFigures => {
  const loads = job.loads.map((load) => loadFigures(load, job.mix))
  const counted = loads.flatMap((load) => (load.yards.length === 1 ? [load.yards[0]!] : []))
  const ordered = orderedYards(job)
  const ticketedYards = sum(counted)
  const formed = formedYards(job)
  const placed = placedYards(job.loads)
  const loadsWithoutPlaced = loads.filter((load) => load.placed === undefined).length
  return {
    loads,
    orderedYards: ordered,
    ticketedYards,
    loadsWithoutYards: loads.length - counted.length,
    difference: ordered && minus(ticketedYards, ordered),
    formedYards: formed,
    placedYards: placed,
    loadsWithoutPlaced,
    overFormed:
      formed && loads.length > 0 && loadsWithoutPlaced === 0 ? overFormedPercent(placed, formed) : undefined,
    edgeGaps: edgeGaps(job.loads),
    gaps: gapsOf(job, new Map(loads.map((load) => [load.load, load.limit.verdict]))),
  }
}

const loadFigures = (load: LoadView, mix: JobView['mix']): LoadFigures => {
  const batched = batchingTimes(load.ticket)
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
    limit: limitFigure(load, mix),
    water,
    waterByStage: waterByStage(load),
    ticketWaters: ticketWaters(load),
    tolerances: toleranceChecks(load, mix),
    yards: distinct(
      load.ticket.flatMap(({ value }) => {
        const yards = value.yards.is === 'given' ? inUnit(value.yards, 'yd3') : undefined
        return yards?.ok ? [yards.value] : []
      }),
    ),
    placed: placedOf(load),
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

const waterFigure = (load: LoadView): WaterFigure => {
  const amounts = load.water.map((s) => s.value.amount)
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
