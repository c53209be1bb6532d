import { Temporal } from 'temporal-polyfill'
import { type Fail, fail, ok, type Result } from '../result.ts'
import { isZone, type LocalTime, minutesBetween, readLocalTime } from '../time.ts'
import { type Measure, whole } from './measure.ts'

export type ClockProblem = 'missing' | 'time-unreadable' | 'time-skipped' | 'time-doubled' | 'zone-unknown'

/**
 * A wall clock in a zone (`2026-11-01T00:30`) as a local time with its offset; one that has its offset is taken as it
 * is. Of the hour that an autumn night has twice and the one that a spring night skips nothing is guessed: say which by
 * its offset.
 * Units: ISO 8601 texts, an IANA zone. Fails: `missing`, `time-unreadable`, `zone-unknown`, `time-skipped`,
 * `time-doubled`. Source: ISO 8601; IANA time zone database.
 */
export const readWallTime = (
  at: string,
  text: string | undefined,
  zone: string | undefined,
): Result<LocalTime, ClockProblem> => {
  if (text === undefined || text === '') return fail('missing', at)
  if (readLocalTime(text) !== undefined) return ok(text)
  const plain = readPlain(text)
  if (!plain) return fail('time-unreadable', at, { text })
  if (zone === undefined) return fail('missing', '/zone')
  if (!isZone(zone)) return fail('zone-unknown', '/zone', { zone })
  const [earlier, later] = (['earlier', 'later'] as const).map((disambiguation) =>
    plain.toZonedDateTime(zone, { disambiguation }),
  ) as [Temporal.ZonedDateTime, Temporal.ZonedDateTime]
  // Both readings of a skipped time differ from what was written; both of a doubled time are it.
  if (!earlier.toPlainDateTime().equals(plain)) return fail('time-skipped', at, { text, zone })
  if (earlier.offset !== later.offset)
    return fail('time-doubled', at, { text, first: earlier.offset, second: later.offset })
  return ok(`${plain.toString({ smallestUnit: 'second' })}${earlier.offset}`)
}

/**
 * Whole minutes from one event to a later one, each cut to its minute first; across midnight and the nights on which
 * clocks change, since each time has its offset.
 * Units: local times with offsets → minutes. Fails: `missing`, `time-unreadable`, `backwards`.
 * Source: our choice (a ticket prints minutes).
 */
export const minutesFrom = (
  from: LocalTime | undefined,
  until: LocalTime | undefined,
): Result<Measure<'min'>, 'missing' | 'time-unreadable' | 'backwards'> => {
  const off = offTime('/from', from) ?? offTime('/until', until)
  if (off || from === undefined || until === undefined) return off ?? fail('missing', '/from')
  const minutes = minutesBetween(from, until)
  if (minutes === undefined) return fail('time-unreadable', '/from', { text: from })
  return minutes < 0 ? fail('backwards', '/until', { from, until }) : ok(whole(minutes, 'min'))
}

const offTime = (at: string, time: string | undefined): Fail<'missing' | 'time-unreadable'> | undefined => {
  if (time === undefined) return fail('missing', at)
  return readLocalTime(time) === undefined ? fail('time-unreadable', at, { text: time }) : undefined
}

const readPlain = (text: string): Temporal.PlainDateTime | undefined => {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d)?$/.test(text)) return undefined
  try {
    return Temporal.PlainDateTime.from(text, { overflow: 'reject' })
  } catch {
    return undefined
  }
}
