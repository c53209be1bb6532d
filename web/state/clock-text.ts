import {
  clockTimeOn,
  dayOf,
  daysLater,
  type LocalTime,
  readLocalTime,
  toLocalTime,
} from '../../api/domain/time.ts'

/** A clock time as typed with gloves on: `705`, `0705`, `7:05`, `13:20`. */
export type ClockText =
  | { readonly is: 'clock'; readonly clock: string }
  /** `705` may be morning or evening: whoever typed it says which. */
  | { readonly is: 'asks-half' }
  | { readonly is: 'none' }
export type Half = 'am' | 'pm'

/** Written with a leading zero, or past twelve, a time is one of a 24-hour clock; else it needs its half of the day. */
export const readClock = (text: string, half: Half | undefined): ClockText => {
  const match = /^(\d{1,2}):?(\d{2})$/.exec(text.trim())
  if (!match) return { is: 'none' }
  const hour = Number(match[1])
  const minute = Number(match[2])
  if (hour > 23 || minute > 59) return { is: 'none' }
  const full = match[1]!.startsWith('0') || hour > 12
  if (full) return { is: 'clock', clock: writeClock(hour, minute) }
  if (!half) return { is: 'asks-half' }
  return { is: 'clock', clock: writeClock((hour % 12) + (half === 'pm' ? 12 : 0), minute) }
}

const writeClock = (hour: number, minute: number): string =>
  `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`

/** A ticket's clock may run ahead of ours, and a slip of the pen be flagged later; three hours tell it from yesterday. */
const AHEAD = 3 * 60 * 60_000

/** The clock on days counted from the one that `near` falls on: by the calendar, since two nights a year are no 24 hours. */
const onDays = (clock: string, near: number, zone: string, days: readonly number[]): LocalTime[] => {
  const today = dayOf(toLocalTime(near, zone))
  return days.flatMap((n) => clockTimeOn(clock, daysLater(today, n), zone, near) ?? [])
}

/**
 * The last time that the clock stood there before `near`: batched at 23:50 and arrived at 00:20 is the evening before.
 */
export const lastTimeAt = (clock: string, near: number, zone: string): LocalTime | undefined =>
  onDays(clock, near, zone, [1, 0, -1]).find((time) => readLocalTime(time)! <= near + AHEAD)

/** The first time that the clock stands there from shortly before `near` on: what was promised for seven is tomorrow's. */
export const nextTimeAt = (clock: string, near: number, zone: string): LocalTime | undefined =>
  onDays(clock, near, zone, [-1, 0, 1, 2]).find((time) => readLocalTime(time)! >= near - AHEAD)

/** A clock time on the day of another time, or so many days from it; across a daylight-saving night too. */
export const timeOnDay = (clock: string, of: LocalTime, days: number, zone: string): LocalTime | undefined =>
  clockTimeOn(clock, daysLater(dayOf(of), days), zone, readLocalTime(of) ?? 0)
