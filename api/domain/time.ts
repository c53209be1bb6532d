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
  try {
    return Temporal.Instant.from(text).epochMilliseconds
  } catch {
    return undefined
  }
}

/** The wall clock in an IANA zone, to the millisecond, with its offset. Fails by exception on an unknown zone. */
export const toLocalTime = (epochMs: number, zone: string): LocalTime => {
  const zoned = Temporal.Instant.fromEpochMilliseconds(Math.floor(epochMs)).toZonedDateTimeISO(zone)
  return `${zoned.toPlainDateTime().toString({ fractionalSecondDigits: 3 })}${zoned.offset}`
}

/**
 * A clock time read off a ticket (`07:05`), on the day that `near` falls on in the zone. Returns undefined for text
 * that is no clock time. In the hour that a spring night skips, the later reading; in the doubled hour, the earlier.
 */
export const clockTimeNear = (clock: string, near: number, zone: string): LocalTime | undefined => {
  const match = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(clock)
  if (!match) return undefined
  const day = Temporal.Instant.fromEpochMilliseconds(near).toZonedDateTimeISO(zone).toPlainDate()
  const zoned = day.toZonedDateTime({
    timeZone: zone,
    plainTime: { hour: Number(match[1]), minute: Number(match[2]) },
  })
  return `${zoned.toPlainDateTime().toString({ smallestUnit: 'minute' })}${zoned.offset}`
}

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
