import { Temporal } from 'temporal-polyfill'
import type { Fact, PhotoTime } from '../../../contract/messages/photo-view.ts'
import { absent, given, readText, unreadable } from './fact.ts'

/**
 * The three tags that say when a picture was taken, as they stand in the file: DateTimeOriginal 36867,
 * SubSecTimeOriginal 37521, OffsetTimeOriginal 36881.
 */
export type ExifTime = {
  readonly dateTimeOriginal: unknown
  readonly subSecTimeOriginal: unknown
  readonly offsetTimeOriginal: unknown
}

/**
 * When a picture was taken, by its camera's clock. A missing offset is an unknown zone: it becomes neither UTC nor the
 * zone of this machine. All of it is as true as the camera's clock, and whoever sends the file controls it.
 * Source: Exif 2.32 (CIPA DC-008-2019) §4.6.5, table 8; a field of blanks is unknown.
 */
export const readExifTime = (tags: ExifTime): PhotoTime => {
  const second = readDateTime(tags.dateTimeOriginal)
  const subSec = readSubSec(tags.subSecTimeOriginal)
  const offset = readOffset(tags.offsetTimeOriginal)
  const fraction = subSec.is === 'given' ? `.${subSec.value}` : ''
  const local: Fact<string> = second.is === 'given' ? given(`${showSecond(second.value)}${fraction}`) : second
  return { local, subSec, offset, utc: toUtc(second, offset, fraction) }
}

const DATE_TIME = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)$/

const readDateTime = (value: unknown): Fact<Temporal.PlainDateTime> => {
  const text = readText(value)
  if (text.is !== 'given') return text
  if (isBlank(text.value)) return absent
  const match = DATE_TIME.exec(text.value)
  if (!match) return unreadable(text.value)
  const [year, month, day, hour, minute, second] = match.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  try {
    // `0000:00:00` and the 30th of February are written by clocks that were never set.
    return given(
      Temporal.PlainDateTime.from({ year, month, day, hour, minute, second }, { overflow: 'reject' }),
    )
  } catch {
    return unreadable(text.value)
  }
}

const readSubSec = (value: unknown): Fact<string> => {
  const text = readText(value)
  if (text.is !== 'given') return text
  return /^\d{1,9}$/.test(text.value) ? text : unreadable(text.value)
}

/** `+10:00`. Some programs write `Z`, which means the same as +00:00. Real zones lie between −12 and +14 hours. */
const readOffset = (value: unknown): Fact<string> => {
  const text = readText(value)
  if (text.is !== 'given') return text
  if (isBlank(text.value)) return absent
  if (text.value === 'Z') return given('+00:00')
  return /^(?:[+-](?:0\d|1[0-3]):[0-5]\d|[+-]14:00)$/.test(text.value) ? text : unreadable(text.value)
}

/** Blanks between the colons: unknown, says EXIF. */
const isBlank = (text: string): boolean => /^[ :]*$/.test(text)

const showSecond = (time: Temporal.PlainDateTime): string => time.toString({ smallestUnit: 'second' })

/** An offset is whole minutes, so the digits of the second stay as they were written. */
const toUtc = (
  second: Fact<Temporal.PlainDateTime>,
  offset: Fact<string>,
  fraction: string,
): Fact<string> => {
  if (second.is !== 'given') return second.is === 'absent' ? absent : unreadable()
  if (offset.is !== 'given') return offset.is === 'absent' ? absent : unreadable()
  const sign = offset.value.startsWith('-') ? -1 : 1
  const hours = sign * Number(offset.value.slice(1, 3))
  const minutes = sign * Number(offset.value.slice(4))
  return given(`${showSecond(second.value.subtract({ hours, minutes }))}${fraction}Z`)
}
