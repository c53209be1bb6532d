import { Temporal } from 'temporal-polyfill'

/**
 * A local time with the offset then in force, as it is signed: `2026-04-21T07:05-05:00`, with seconds and up to three
 * digits of a fraction where they are known.
 */
export type LocalTime = string

export const LOCAL_TIME =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d(?::[0-5]\d(?:\.\d{1,3})?)?(?:\+00:00|[+-](?!00:00)(?:(?:0\d|1[0-3]):[0-5]\d|14:00))$/

/** Milliseconds since the epoch, or undefined where the text has another form or names no day (30 February). */
export const readLocalTime = (text: string): number | undefined => {
  if (!LOCAL_TIME.test(text)) return undefined
  // By place, since the form is fixed: each entry has two of these, and a whole log is read again at each start.
  const at = (from: number, to: number) => Number(text.slice(from, to))
  const day = dayNumber(at(0, 4), at(5, 7), at(8, 10))
  if (day === undefined) return undefined
  const zone = text.length - 6
  const seconds = zone > 16 ? Number(text.slice(17, zone)) : 0
  const offset = (text[zone] === '-' ? -1 : 1) * (at(zone + 1, zone + 3) * 60 + at(zone + 4, zone + 6))
  return ((day * 24 + at(11, 13)) * 60 + at(14, 16) - offset) * 60_000 + Math.round(seconds * 1000)
}

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

/** Days from 1970-01-01 in the Gregorian calendar, or undefined where the month has no such day. */
const dayNumber = (year: number, month: number, day: number): number | undefined => {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  if (day > MONTH_DAYS[month - 1]! + (leap && month === 2 ? 1 : 0)) return undefined
  // Years that begin in March end with the leap day.
  const y = month > 2 ? year : year - 1
  const era = Math.floor(y / 400)
  const yearOfEra = y - era * 400
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1
  const leaps = Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100)
  return era * 146_097 + yearOfEra * 365 + leaps + dayOfYear - 719_468
}

/** The wall clock in an IANA zone, to the millisecond, with its offset. Fails by exception on an unknown zone. */
export const toLocalTime = (epochMs: number, zone: string): LocalTime => {
  const zoned = Temporal.Instant.fromEpochMilliseconds(Math.floor(epochMs)).toZonedDateTimeISO(zone)
  return `${zoned.toPlainDateTime().toString({ fractionalSecondDigits: 3 })}${zoned.offset}`
}

/**
 * A clock time (`07:05`) on a calendar day (`2026-04-21`) in a zone; undefined for text that is no clock time. In the hour
 * that a spring night skips, the later reading; in the doubled hour of an autumn night, the one that is nearer to `near`.
 */
export const clockTimeOn = (
  clock: string,
  day: string,
  zone: string,
  near: number,
): LocalTime | undefined => {
  const match = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(clock)
  if (!match) return undefined
  const plain = Temporal.PlainDate.from(day).toPlainDateTime({
    hour: Number(match[1]),
    minute: Number(match[2]),
  })
  const first = plain.toZonedDateTime(zone)
  const second = plain.toZonedDateTime(zone, { disambiguation: 'later' })
  const away = (reading: Temporal.ZonedDateTime) => Math.abs(reading.epochMilliseconds - near)
  const zoned = away(second) < away(first) ? second : first
  return `${zoned.toPlainDateTime().toString({ smallestUnit: 'minute' })}${zoned.offset}`
}

/** A clock time on the day that `near` falls on in the zone; else as `clockTimeOn`. */
export const clockTimeNear = (clock: string, near: number, zone: string): LocalTime | undefined =>
  clockTimeOn(clock, dayOf(toLocalTime(near, zone)), zone, near)

export const isZone = (zone: string): boolean => {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone)
    return true
  } catch {
    return false
  }
}

/** `2026-04-21T16:20:31.125Z`: how times of receipt are printed. */
export const toUtcTime = (epochMs: number): string =>
  Temporal.Instant.fromEpochMilliseconds(epochMs).toString({ fractionalSecondDigits: 3 })

/** The clock part to the minute, as a foreman reads it: `07:05`. The text's own offset holds, no zone is applied. */
export const clockOf = (time: LocalTime): string => time.slice(11, 16)
export const dayOf = (time: LocalTime): string => time.slice(0, 10)

/** A calendar day so many days later (or earlier, where negative). */
export const daysLater = (day: string, days: number): string =>
  Temporal.PlainDate.from(day).add({ days }).toString()

/**
 * Whole minutes from one time to another, each cut to its minute first: a ticket prints minutes, and whoever works it
 * out by hand from the printed times gets the same. Negative where the second is the earlier. Source: our choice.
 */
export const minutesBetween = (from: LocalTime, to: LocalTime): number | undefined => {
  const a = readLocalTime(from)
  const b = readLocalTime(to)
  return a === undefined || b === undefined ? undefined : Math.floor(b / 60_000) - Math.floor(a / 60_000)
}
