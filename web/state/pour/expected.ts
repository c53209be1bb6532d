import type { JobFigures } from '../../../api/domain/job/figures.ts'
import type { JobView } from '../../../api/domain/job/view.ts'
import { type LocalTime, readLocalTime, toLocalTime } from '../../../api/domain/time.ts'
import { compare, inUnit } from '../../../api/domain/units.ts'

/** A truck that is later than this is not what anybody waits for any more. Source: our choice. */
const WAITED_FOR_MS = 4 * 3_600_000

/**
 * When the next truck was promised: the last promise's time, and its spacing for each truck that has come. Undefined where
 * nobody promised, where the tickets hold what was ordered already, long after that time, and for a later truck without a
 * spacing: a promise is never made up.
 */
export const nextPromised = (
  job: JobView,
  { orderedYards, ticketedYards, loadsWithoutYards }: Yards,
  zone: string,
  now: number,
): LocalTime | undefined => {
  if (orderedYards && loadsWithoutYards === 0 && compare(ticketedYards, orderedYards) >= 0) return undefined
  const time = promisedTime(job, zone)
  const at = time === undefined ? undefined : readLocalTime(time)
  return at === undefined || now > at + WAITED_FOR_MS ? undefined : time
}

type Yards = Pick<JobFigures, 'orderedYards' | 'ticketedYards' | 'loadsWithoutYards'>

const promisedTime = (job: JobView, zone: string): LocalTime | undefined => {
  const promise = job.promised.at(-1)?.value
  const first = promise && readLocalTime(promise.at)
  if (!promise || first === undefined) return undefined
  const come = job.loads.filter((load) => load.arrived.length > 0).length
  if (come === 0) return promise.at
  const minutes = promise.spacing && inUnit(promise.spacing, 'min')
  if (!minutes?.ok) return undefined
  const spacing = Number(minutes.value.n) / Number(minutes.value.d)
  return toLocalTime(first + come * spacing * 60_000, zone)
}
