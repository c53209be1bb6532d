import { dayOf, daysLater, readLocalTime } from '../time.ts'
import type { JobView, LoadView } from './view.ts'

/**
 * The last night, by its evening's date, up to which every night since the last concrete is told of by a cover, a
 * temperature or the weather. Undefined where the first night isn't.
 */
export const lastNightTold = (job: JobView, loads: readonly LoadView[]): string | undefined => {
  const days = loads.flatMap((load) =>
    [...load.ended, ...load.started, ...load.arrived].map((s) => dayOf(s.value)),
  )
  const first = days.sort().at(-1)
  const told = nightsTold(job)
  let last: string | undefined
  for (let night = first; night !== undefined && told.has(night); night = daysLater(night, 1)) last = night
  return last
}

const nightsTold = (job: JobView): ReadonlySet<string> => {
  const readings = [...job.temperatures.filter((s) => s.value.of !== 'concrete'), ...job.weather]
  return new Set([
    ...readings.flatMap(({ at }) => nightOf(at) ?? []),
    ...coversOf(job).flatMap(({ from, to }) => nightsBetween(from, to)),
  ])
}

type Cover = { readonly from: string; readonly to: string }

/**
 * From the evening of the day it was put on to the evening before it came off. One of which nobody said that it came off
 * tells of its first night alone; wet cloth then of none, since it keeps an edge alive for minutes.
 */
const coversOf = (job: JobView): Cover[] => {
  const inTime = job.covers
    .map((s) => ({ ...s.value, at: s.at }))
    .sort((a, b) => (readLocalTime(a.at) ?? 0) - (readLocalTime(b.at) ?? 0))
  return inTime.flatMap((cover, i) => {
    if (cover.change !== 'on') return []
    const off = inTime.slice(i + 1).find((later) => later.change === 'off' && later.what === cover.what)
    const from = dayOf(cover.at)
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
const nightOf = (at: string): string | undefined => {
  const hour = Number(at.slice(11, 13))
  if (hour >= 18) return dayOf(at)
  return hour < 6 ? daysLater(dayOf(at), -1) : undefined
}
