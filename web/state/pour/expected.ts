import type { JobView } from '../../../api/domain/job/view.ts'
import { type LocalTime, readLocalTime, toLocalTime } from '../../../api/domain/time.ts'
import { inUnit } from '../../../api/domain/units.ts'

/**
 * When the next truck was promised: the last promise's time, and its spacing for each truck that has come. Undefined where
 * nobody promised; for a later truck without a spacing, too: a promise is never made up.
 */
export const nextPromised = (job: JobView, zone: string): LocalTime | undefined => {
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
