import { dayOf, daysLater, LOCAL_TIME, readLocalTime, toLocalTime } from '../time.ts'
import type { JobView, LoadView } from './view.ts'

/**
 * The last night, by its evening's date, up to which every night since the last concrete is told of by a cover, a
 * temperature or the weather. Undefined where the first night isn't. Nights are the site's, whatever zone a phone was in.
 */
export const lastNightTold = (job: JobView, loads: readonly LoadView[]): string | undefined => {
  const onSite = siteClock(job)
  const days = loads.flatMap((load) =>
    [...load.ended, ...load.started, ...load.arrived].map((s) => nightFrom(onSite(s.value))),
  )
  const first = days.sort().at(-1)
  const told = nightsTold(job, onSite)
  let last: string | undefined
  for (let night = first; night !== undefined && told.has(night); night = daysLater(night, 1)) last = night
  return last
}

/** A time by the site's clock; by its own offset where no zone, or more than one, is recorded. */
export const siteClock = (job: JobView): ((at: string) => string) => {
  const zone = job.zone.every((s) => s.value === job.zone[0]?.value) ? job.zone[0]?.value : undefined
  return (at) => {
    const instant = readLocalTime(at)
    if (zone === undefined || instant === undefined) return at
    const local = toLocalTime(instant, zone)
    // The last hours of the year 9999 may be in a year of five digits on site.
    return LOCAL_TIME.test(local) ? local : at
  }
}

const nightsTold = (job: JobView, onSite: (at: string) => string): ReadonlySet<string> => {
  const temperatures = job.temperatures.filter(
    ({ value: { of, temperature } }) => of !== 'concrete' && temperature.is === 'given',
  )
  return new Set([
    ...[...temperatures, ...job.weather].flatMap(({ at }) => nightOf(onSite(at)) ?? []),
    ...coversOf(job, onSite).flatMap(({ from, to }) => nightsBetween(from, to)),
  ])
}

type Cover = { readonly from: string; readonly to: string }

/**
 * From the night in which, or before which, it was put on to the last that began before it came off. One of which nobody
 * said that it came off tells of its first night alone; wet cloth then of none, since it keeps an edge alive for minutes.
 */
const coversOf = (job: JobView, onSite: (at: string) => string): Cover[] => {
  const inTime = job.covers
    .map((s) => ({ ...s.value, at: onSite(s.at), instant: readLocalTime(s.at) ?? 0 }))
    .sort((a, b) => a.instant - b.instant)
  return inTime.flatMap((cover, i) => {
    if (cover.change !== 'on') return []
    const off = inTime.slice(i + 1).find((later) => later.change === 'off' && later.what === cover.what)
    const from = nightFrom(cover.at)
    if (off) return [{ from, to: daysLater(dayOf(off.at), -1) }]
    return cover.what === 'wet-cloth' ? [] : [{ from, to: from }]
  })
}

/** Nobody leaves a cover on for longer; a clock that was off by years may say so. */
const MOST_NIGHTS = 366

const nightsBetween = (from: string, to: string): string[] => {
  const all: string[] = []
  for (let night = from; night <= to && all.length < MOST_NIGHTS; night = daysLater(night, 1)) all.push(night)
  return all
}

/** From six in the evening to six in the morning. Source: our choice. */
export const nightOf = (at: string): string | undefined => {
  const hour = Number(at.slice(11, 13))
  if (hour >= 18) return dayOf(at)
  return hour < 6 ? daysLater(dayOf(at), -1) : undefined
}

/** The night that a time lies in, else the next. */
const nightFrom = (at: string): string => nightOf(at) ?? dayOf(at)
