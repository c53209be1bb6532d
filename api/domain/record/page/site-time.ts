import { clockOf, dayOf, isZone, readLocalTime, toLocalTime } from '../../time.ts'
import type { RecordModel } from '../model.ts'

/** How one record tells the time: the site's wall clock, on the day on which most of it happened. */
export type SiteTime = {
  /** The clock alone on that day; with the date on another one, and the offset where it isn't that day's. */
  readonly show: (at: string) => string
  readonly day: string
  readonly offset: string
}

/**
 * Times as the site's clock showed them, whatever zone a phone was set to: an office's correction of a site's time reads
 * in the site's. What the device itself showed is added where it differs. Where the job has no zone, or several stand, each
 * time is shown as its device had it.
 */
export const siteTimeOf = (model: RecordModel): SiteTime => {
  const zone = theZone(model)
  const atSite = (at: string): string => {
    const ms = zone === undefined ? undefined : readLocalTime(at)
    return ms === undefined ? at : toLocalTime(ms, zone!)
  }
  const { day, offset } = commonDay(model, atSite)
  const show = (at: string): string => {
    const local = atSite(at)
    const clock = dayOf(local) === day ? clockOf(local) : `${dayOf(local)} ${clockOf(local)}`
    const shown = offsetOf(local) === offset ? clock : `${clock} UTC${offsetOf(local)}`
    if (offsetOf(at) === offsetOf(local)) return shown
    const own = dayOf(at) === dayOf(local) ? clockOf(at) : `${dayOf(at)} ${clockOf(at)}`
    return `${shown} (${own} UTC${offsetOf(at)})`
  }
  return { show, day, offset }
}

const theZone = ({ job }: RecordModel): string | undefined => {
  const zones = [...new Set(job.zone.map(({ text }) => text))]
  return zones.length === 1 && isZone(zones[0]!) ? zones[0] : undefined
}

const offsetOf = (at: string): string => at.slice(-6)

/** The day and offset that most of the job's entries by people bear: these need not be repeated at each time. */
const commonDay = (
  { job, made }: RecordModel,
  atSite: (at: string) => string,
): { day: string; offset: string } => {
  const tally = new Map<string, number>()
  for (const { at, by } of job.history) {
    if (by.known === 'server') continue
    const local = atSite(at)
    const key = `${dayOf(local)} ${offsetOf(local)}`
    tally.set(key, (tally.get(key) ?? 0) + 1)
  }
  const [first] = [...tally].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
  const [day, offset] = (first?.[0] ?? `${made.slice(0, 10)} +00:00`).split(' ')
  return { day: day!, offset: offset! }
}
