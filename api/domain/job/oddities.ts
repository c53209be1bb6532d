import { canonicalJson } from '../log/bytes.ts'
import { readLocalTime } from '../time.ts'
import { isDrumOdd } from './drum.ts'
import { batchingTimes } from './limit.ts'
import { minutesOf } from './minutes.ts'
import { type EntryOf, isOrderSaidTwice, isWaterSaidTwice } from './said-twice.ts'
import { isSentBack } from './sent-back.ts'
import type { Fact, JobView, LoadView, Said } from './view.ts'
import { isMoreThanTicketed, isPartPlannedTwice } from './volume.ts'
import { isNoneAndSome, isSome, isStageAgainstTimes } from './water.ts'

/**
 * What in a load's entries can't all be so, or looks like one thing told twice. Nothing is refused or left out of a figure
 * for it; whoever reads the figure is told to look again.
 */
export type OddityKey =
  | 'times-backwards'
  | 'time-ahead'
  | 'water-none-and-some'
  | 'water-said-twice'
  | 'water-stage-against-times'
  | 'yards-do-not-fit'
  | 'rejected-and-taken'
  | 'several-answers'

export type JobOddityKey = 'order-said-twice' | 'part-planned-twice' | 'several-answers'

export const loadOddities = (load: LoadView, entryOf: EntryOf): OddityKey[] => {
  const single: readonly Fact<unknown>[] = [
    load.ticket,
    load.arrived,
    load.ready,
    load.started,
    load.ended,
    load.left,
    load.leftOver,
  ]
  const odd: [OddityKey, boolean][] = [
    ['times-backwards', isBackwards(load)],
    ['time-ahead', allSaid(load).some((s) => s.ahead)],
    ['water-none-and-some', isNoneAndSome(load)],
    ['water-said-twice', isWaterSaidTwice(load, entryOf)],
    ['water-stage-against-times', isStageAgainstTimes(load)],
    ['yards-do-not-fit', isMoreThanTicketed(load) || isDrumOdd(load)],
    ['rejected-and-taken', load.rejected.length > 0 && (load.accepted.length > 0 || !isSentBack(load))],
    ['several-answers', single.some(isConflict)],
  ]
  return odd.flatMap(([key, is]) => (is ? [key] : []))
}

export const jobOddities = (job: JobView, entryOf: EntryOf): JobOddityKey[] => {
  const single: readonly Fact<unknown>[] = [job.name, job.zone, job.customer, job.address, job.mix]
  const odd: [JobOddityKey, boolean][] = [
    ['order-said-twice', isOrderSaidTwice(job, entryOf)],
    ['part-planned-twice', isPartPlannedTwice(job)],
    ['several-answers', single.some(isConflict) || isEditionConflict(job)],
  ]
  return odd.flatMap(([key, is]) => (is ? [key] : []))
}

/** One choice between editions that two entries answer otherwise; two that answer different ones are no conflict. */
const isEditionConflict = ({ editions }: JobView): boolean => {
  const said = new Map<string, unknown>()
  return editions.some(({ value }) =>
    Object.entries(value).some(([choice, edition]) => {
      const known = said.get(choice)
      if (known === undefined) said.set(choice, edition)
      return known !== undefined && edition !== undefined && known !== edition
    }),
  )
}

/** All that was said of the load, whatever about. */
const allSaid = ({ id: _, ordinal: __, joined: ___, ...lists }: LoadView): readonly Said<unknown>[] =>
  Object.values(lists).flat()

/** Two that say the same, to the printed minute where they are times, are one answer. */
const isConflict = (fact: Fact<unknown>): boolean => new Set(fact.map((s) => answerOf(s.value))).size > 1

const answerOf = (value: unknown): string => {
  const instant = typeof value === 'string' ? readLocalTime(value) : undefined
  return instant === undefined ? canonicalJson(value) : String(Math.floor(instant / 60_000))
}

/**
 * The order that a load's day has: batched, left the plant, arrived, started, ended, left. Source: common practice, no
 * source. Pauses and resumptions lie between start and end; water that went in, and concrete that was sampled, between
 * batching and the truck's leaving. An answer of none is no event: it may be given afterwards.
 */
const isBackwards = (load: LoadView): boolean => {
  const values = (fact: Fact<string>) => fact.map((s) => s.value)
  const [arrived, started, ended, left] = [load.arrived, load.started, load.ended, load.left].map(values) as [
    string[],
    string[],
    string[],
    string[],
  ]
  const batched = batchingTimes(load.ticket)
  const leftPlant = load.ticket.flatMap(({ value: { leftPlantAt } }) =>
    leftPlantAt?.is === 'given' ? [leftPlantAt.at] : [],
  )
  const stops = [...load.paused, ...load.resumed].map((s) => s.value)
  const within = [...load.water.filter(isSome).map((s) => s.at), ...sampledTimes(load)]
  const inOrder: readonly (readonly [readonly string[], readonly string[]])[] = [
    [batched, leftPlant],
    [batched, arrived],
    [leftPlant, arrived],
    [batched, started],
    [batched, ended],
    [arrived, started],
    [arrived, left],
    [started, ended],
    [started, stops],
    [stops, ended],
    [ended, left],
    [batched, within],
    [within, left],
  ]
  return inOrder.some(([before, after]) => minutesOf(before, after).backwards)
}

const sampledTimes = (load: LoadView): string[] => {
  const readings: readonly (readonly [
    string,
    Said<{ readonly taking?: { sampledAt?: string | undefined } | undefined }>,
  ])[] = [
    ...load.slump.map((s) => [s.value.slump.is, s] as const),
    ...load.air.map((s) => [s.value.air.is, s] as const),
  ]
  return readings.flatMap(([is, s]) => (is === 'given' ? [s.value.taking?.sampledAt ?? s.at] : []))
}
