import { clockTimeNear, dayOf, daysLater, type LocalTime, readLocalTime, toLocalTime } from '../time.ts'
import type { Fact } from './facts.ts'

const MINUTE = 60_000

/**
 * When a fact happened, as local time with the offset then in force: a time of day on the day of speech (or the day before,
 * where that was said), minutes before it, or the nearest past minute where the hour was not said. Undefined where nobody
 * said when, or the moment of speech can't be read.
 */
export const momentOf = (
  fact: Fact,
  { at, zone }: { at: LocalTime; zone: string },
): LocalTime | undefined => {
  const said = readLocalTime(at)
  if (said === undefined) return undefined
  if (fact.min_ago !== undefined) return toMinute(toLocalTime(said - fact.min_ago * MINUTE, zone))
  if (fact.at === undefined) return undefined
  const hourless = /^\*:(\d\d)$/.exec(fact.at)
  if (hourless) return nearestPast(said, Number(hourless[1]), zone)
  const time = clockTimeNear(fact.at, said, zone)
  if (time === undefined || fact.day !== 'yesterday') return time
  const noon = readLocalTime(`${daysLater(dayOf(time), -1)}T12:00${time.slice(16)}`)
  return noon === undefined ? undefined : clockTimeNear(fact.at, noon, zone)
}

/** The last time before the moment of speech that the minute hand stood there. */
const nearestPast = (said: number, minute: number, zone: string): LocalTime => {
  const now = toLocalTime(said, zone)
  const back = (Number(now.slice(14, 16)) - minute + 60) % 60
  return toMinute(toLocalTime(said - back * MINUTE, zone))
}

/** Cut to the minute: nobody says seconds. */
const toMinute = (time: LocalTime): LocalTime =>
  `${time.slice(0, 16)}${time.slice(time.search(/[+-]\d\d:\d\d$/))}`
