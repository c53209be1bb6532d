import { minus, type Ratio, sum } from '../units.ts'
import { type EdgeGap, edgeGaps } from './edge-gaps.ts'
import { batchingTimes, type LimitFigure, limitFigure } from './limit.ts'
import { type Minutes, minutesOf } from './minutes.ts'
import { gapsOf, type JobGap } from './missing.ts'
import { type JobOddityKey, jobOddities, loadOddities, type OddityKey } from './oddities.ts'
import { type EntryOf, entriesOf } from './said-twice.ts'
import { isSentBack } from './sent-back.ts'
import { type ToleranceCheck, toleranceChecks } from './tolerance.ts'
import type { Fact, JobView, LoadView } from './view.ts'
import { formedYards, orderedYards, overFormedPercent, placedOf, placedYards, ticketYards } from './volume.ts'
import { type WaterByStage, type WaterFigure, waterByStage, waterFigure } from './water.ts'
import { type TicketWater, ticketWaters } from './water-cement.ts'

export type { JobOddityKey, OddityKey } from './oddities.ts'
export type { WaterFigure } from './water.ts'

export type LoadFigures = {
  readonly load: string
  readonly ordinal: number
  readonly batchToArrival: Minutes
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

export type JobFigures = {
  readonly loads: readonly LoadFigures[]
  /** Sum of what was ordered; undefined where no order was recorded. */
  readonly orderedYards: Ratio | undefined
  /** Sum over the loads whose ticket states yards, one ticket each; a load that was sent back is not in it. */
  readonly ticketedYards: Ratio
  /** Loads that this sum does not count, since their yards are not recorded, not stated or in conflict. */
  readonly loadsWithoutYards: number
  /** Sum over the tickets of the loads that were sent back. */
  readonly sentBackYards: Ratio
  readonly difference: Ratio | undefined
  /** By the planned parts; undefined where nothing was planned. */
  readonly formedYards: Ratio | undefined
  /** Planned parts that this sum does not count, since several sizes stand. */
  readonly partsWithoutYards: number
  /** Sum over the loads of which it is known. */
  readonly placedYards: Ratio
  readonly loadsWithoutPlaced: number
  /** Placed above formed, in per cent of formed; undefined until both are known whole. */
  readonly overFormed: Ratio | undefined
  readonly edgeGaps: readonly EdgeGap[]
  readonly gaps: readonly JobGap[]
  readonly oddities: readonly JobOddityKey[]
}

/** The figures of a job: each computed from standing entries, none typed. The same code on phone, server, checker. */
export const jobFigures = (job: JobView): JobFigures => {
  const entryOf = entriesOf(job)
  const loads = job.loads.map((load) => loadFigures(load, job.mix, entryOf))
  const sentBack = new Set(job.loads.filter(isSentBack).map(({ id }) => id))
  const kept = loads.filter(({ load }) => !sentBack.has(load))
  const counted = kept.flatMap(({ yards }) => (yards.length === 1 ? [yards[0]!] : []))
  const ordered = orderedYards(job)
  const ticketedYards = sum(counted)
  const formed = formedYards(job)
  const placed = placedYards(job.loads)
  const loadsWithoutPlaced = loads.filter((load) => load.placed === undefined).length
  const isWhole = kept.length > 0 && loadsWithoutPlaced === 0 && formed.partsWithout === 0
  return {
    loads,
    orderedYards: ordered,
    ticketedYards,
    loadsWithoutYards: kept.length - counted.length,
    sentBackYards: sum(
      loads.flatMap(({ load, yards }) => (sentBack.has(load) && yards.length === 1 ? [yards[0]!] : [])),
    ),
    difference: ordered && minus(ticketedYards, ordered),
    formedYards: formed.yards,
    partsWithoutYards: formed.partsWithout,
    placedYards: placed,
    loadsWithoutPlaced,
    overFormed: formed.yards && isWhole ? overFormedPercent(placed, formed.yards) : undefined,
    edgeGaps: edgeGaps(job.loads),
    gaps: gapsOf(job, new Map(loads.map((load) => [load.load, load.limit.verdict]))),
    oddities: jobOddities(job, entryOf),
  }
}

const loadFigures = (load: LoadView, mix: JobView['mix'], entryOf: EntryOf): LoadFigures => {
  const batched = batchingTimes(load.ticket)
  return {
    load: load.id,
    ordinal: load.ordinal,
    batchToArrival: minutesOf(batched, times(load.arrived)),
    batchToStart: minutesOf(batched, times(load.started)),
    batchToEnd: minutesOf(batched, times(load.ended)),
    onSite: minutesOf(times(load.arrived), times(load.left)),
    limit: limitFigure(load, mix),
    water: waterFigure(load),
    waterByStage: waterByStage(load),
    ticketWaters: ticketWaters(load),
    tolerances: toleranceChecks(load, mix),
    yards: ticketYards(load),
    placed: placedOf(load),
    missing: missingOf(load),
    oddities: loadOddities(load, entryOf),
  }
}

const times = (fact: Fact<string>): string[] => fact.map((s) => s.value)

const missingOf = (load: LoadView): MissingKey[] => {
  const tickets = load.ticket.map((s) => s.value)
  const unstated = (fact: 'batchedAt' | 'limit' | 'yards') =>
    tickets.length > 0 && tickets.every((ticket) => ticket[fact].is === 'not-stated')
  const isPoured = !isSentBack(load)
  const missing: [MissingKey, boolean][] = [
    ['ticket', tickets.length === 0],
    ['batched', unstated('batchedAt')],
    ['limit', unstated('limit')],
    ['yards', unstated('yards')],
    ['arrived', load.arrived.length === 0],
    ['water', load.water.length === 0],
    ['slump', load.slump.length === 0],
    ['started', isPoured && load.started.length === 0],
    ['ended', isPoured && load.ended.length === 0],
    ['left', load.left.length === 0],
  ]
  return missing.flatMap(([key, is]) => (is ? [key] : []))
}
