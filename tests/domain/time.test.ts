import fc from 'fast-check'
import { Temporal } from 'temporal-polyfill'
import { describe, expect, test } from 'vitest'
import {
  clockOf,
  clockTimeNear,
  dayOf,
  isZone,
  LOCAL_TIME,
  minutesBetween,
  readLocalTime,
  toLocalTime,
  toUtcTime,
} from '../../api/domain/time.ts'

const CHICAGO = 'America/Chicago'

describe('[L6] local times with the offset then in force', () => {
  const READ = [
    '2026-04-21T07:33-05:00',
    '2026-04-21T07:33:10-05:00',
    '2026-04-21T07:33:10.5-05:00',
    '2026-04-21T07:33:10.125+14:00',
    '2024-02-29T00:00+00:00',
  ]
  for (const text of READ)
    test(`[L6] ${text} is read`, () => expect(readLocalTime(text)).toBe(Date.parse(text)))

  const REFUSED = [
    '2026-04-21T07:33Z',
    '2026-04-21T07:33:60-05:00',
    '2026-04-21T24:00-05:00',
    '2026-04-21 07:33-05:00',
    '2026-04-21T7:33-05:00',
    '2026-02-29T07:33-06:00',
    '2026-04-31T07:33-05:00',
    '2026-04-21T07:33:10.1234-05:00',
    '2026-04-21T07:33-05:00[America/Chicago]',
    '2026-04-21T07:33',
    '2026-04-21T07:33-15:00',
    '',
  ]
  for (const text of REFUSED)
    test(`[L6] ${JSON.stringify(text)} is refused`, () => expect(readLocalTime(text)).toBeUndefined())

  test('[L6] what a clock writes reads back to the same millisecond, in any zone', () => {
    const zones = fc.constantFrom(CHICAGO, 'UTC', 'Asia/Kolkata', 'Pacific/Apia', 'America/St_Johns')
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(2020, 0), max: Date.UTC(2040, 0) }), zones, (ms, zone) => {
        const text = toLocalTime(ms, zone)
        expect(text).toMatch(LOCAL_TIME)
        expect(readLocalTime(text)).toBe(ms)
        // Another implementation of the zones.
        const parts = new Intl.DateTimeFormat('en-GB', {
          timeZone: zone,
          dateStyle: 'short',
          timeStyle: 'short',
        })
        expect(parts.format(ms)).toBe(`${dayOf(text).split('-').toReversed().join('/')}, ${clockOf(text)}`)
      }),
      { numRuns: 200, seed: 71340 },
    )
  })
})

test('[L6] any day, true or not, is read as the calendar of Temporal reads it', () => {
  const two = (n: number) => String(n).padStart(2, '0')
  const texts = fc
    .tuple(fc.nat(9999), fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 31 }), fc.nat(86_399_999))
    .chain(([year, month, day, ms]) =>
      fc.constantFrom('+00:00', '-05:00', '+05:30', '+14:00', '-13:59').map((offset) => {
        const clock = new Date(ms).toISOString().slice(11, 23)
        return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}T${clock}${offset}`
      }),
    )
  const byTemporal = (text: string): number | undefined => {
    try {
      return Temporal.Instant.from(text).epochMilliseconds
    } catch {
      return undefined
    }
  }
  fc.assert(
    fc.property(texts, (text) => {
      expect(readLocalTime(text)).toBe(byTemporal(text))
    }),
    { numRuns: 2000, seed: 71341 },
  )
})

test('[clocks] a clock time off a ticket is on the day that it is near to, with the offset of that day', () => {
  const near = Date.parse('2026-04-21T12:00-05:00')
  expect(clockTimeNear('07:05', near, CHICAGO)).toBe('2026-04-21T07:05-05:00')
  expect(clockTimeNear('7:05', near, CHICAGO)).toBe('2026-04-21T07:05-05:00')
  expect(clockTimeNear('07:05', Date.parse('2026-01-21T12:00-06:00'), CHICAGO)).toBe('2026-01-21T07:05-06:00')
  for (const text of ['24:00', '7', '07:60', '0705', ''])
    expect(clockTimeNear(text, near, CHICAGO)).toBeUndefined()
})

test('[clocks] in the hour that a spring night skips it is the later reading, in the doubled hour the nearer', () => {
  expect(clockTimeNear('02:30', Date.parse('2026-03-08T12:00-05:00'), CHICAGO)).toBe('2026-03-08T03:30-05:00')
  const at = (near: string) => clockTimeNear('01:30', Date.parse(near), CHICAGO)
  expect(at('2026-11-01T00:20-05:00')).toBe('2026-11-01T01:30-05:00')
  expect(at('2026-11-01T01:45-05:00')).toBe('2026-11-01T01:30-05:00')
  expect(at('2026-11-01T01:20-06:00')).toBe('2026-11-01T01:30-06:00')
  expect(at('2026-11-01T12:00-06:00')).toBe('2026-11-01T01:30-06:00')
})

test('[minutes] each time is cut to its minute first; text that is no time has none', () => {
  expect(minutesBetween('2026-04-21T07:05:59-05:00', '2026-04-21T07:06:00-05:00')).toBe(1)
  expect(minutesBetween('2026-04-21T07:06-05:00', '2026-04-21T07:05:59-05:00')).toBe(-1)
  expect(minutesBetween('2026-04-21T07:06-05:00', '2026-04-21T08:06-04:00')).toBe(0)
  expect(minutesBetween('noon', '2026-04-21T07:06-05:00')).toBeUndefined()
})

test('[L28] a zone is one that the tables know', () => {
  expect([CHICAGO, 'UTC', 'America/Indiana/Knox'].every(isZone)).toBe(true)
  expect(['', 'Chicago', 'America/Nowhere', 'CST6CDT!'].some(isZone)).toBe(false)
})

test('[receipt] times of receipt are printed in UTC, to the millisecond', () => {
  expect(toUtcTime(Date.UTC(2026, 3, 21, 16, 20, 31, 125))).toBe('2026-04-21T16:20:31.125Z')
  expect(toUtcTime(0)).toBe('1970-01-01T00:00:00.000Z')
})
