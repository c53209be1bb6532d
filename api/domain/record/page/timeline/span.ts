import { readLocalTime } from '../../../time.ts'
import type { LoadModel } from '../../load-model.ts'
import type { RecordModel } from '../../model.ts'

const HOUR = 3_600_000
/** Times no further apart than this are of one pour. Source: our choice. */
const APART = 8 * HOUR
/** A drawing spans no more: what lies further away stands in the tables. */
const MOST = 36 * HOUR

export type TimeSpan = { readonly from: number; readonly to: number }

/** All times of a load: batching by its tickets, and what was logged at the truck. */
export const timesOfLoad = (load: LoadModel): number[] =>
  [
    ...load.tickets.flatMap(({ batchedAt }) => (batchedAt.is === 'given' ? [batchedAt.at] : [])),
    ...[load.arrived, load.started, load.paused, load.resumed, load.ended, load.left]
      .flat()
      .map(({ at }) => at),
  ].flatMap((at) => readLocalTime(at) ?? [])

/** When the trucks came and went: the longest run of times without a great gap. Undefined where no load has a time. */
export const truckSpan = ({ job }: RecordModel): TimeSpan | undefined => runOf(job.loads.flatMap(timesOfLoad))

/** The day's work around the trucks: what was logged of finish, cure and weather near enough to them. */
export const workSpan = (model: RecordModel, times: readonly number[]): TimeSpan | undefined => {
  const trucks = truckSpan(model)
  const run = runOf([...times, ...(trucks ? [trucks.from, trucks.to] : [])], trucks)
  return run && { from: run.from, to: Math.min(run.to, run.from + MOST) }
}

const runOf = (times: readonly number[], within?: TimeSpan): TimeSpan | undefined => {
  const runs: number[][] = []
  for (const time of [...times].sort((a, b) => a - b)) {
    const last = runs.at(-1)
    if (last && time - last.at(-1)! <= APART) last.push(time)
    else runs.push([time])
  }
  const holds = (run: number[]) =>
    within !== undefined && run[0]! <= within.from && within.from <= run.at(-1)!
  const longest = runs.find(holds) ?? runs.reduce<number[]>((a, b) => (b.length > a.length ? b : a), [])
  const from = longest[0]
  return from === undefined ? undefined : { from, to: Math.min(longest.at(-1)!, from + MOST) }
}
