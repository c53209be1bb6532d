import fc from 'fast-check'
import { DateTime, IANAZone } from 'luxon'
import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { daysLater, minutesBetween, readLocalTime, toLocalTime } from '../../../api/domain/time.ts'
import { entry, FIRST, given, JOB, SECOND, ticket } from './pour.ts'

/**
 * Days and zones by a calendar that the code doesn't use: Luxon, on the system's own IANA zones. Source of the nights:
 * each zone's changes in IANA tz database 2024a and later (US rules since 2007, EU rules since 1996, Lord Howe by half an
 * hour since 1985).
 */
type Pour = {
  readonly name: string
  readonly zone: string
  /** Batching, by UTC; the rest in minutes after it. */
  readonly batched: string
  readonly started: number
  readonly ended: number
  readonly left: number
  /** What the zone's clock shows at batching and at the end, so that the row is about what it says. */
  readonly shows: readonly [string, string]
}

const POURS: readonly Pour[] = [
  {
    name: 'across midnight',
    zone: 'America/Chicago',
    batched: '2026-04-22T04:10Z',
    started: 36,
    ended: 63,
    left: 70,
    shows: ['23:10 -05:00', '00:13 -05:00'],
  },
  {
    name: 'across midnight',
    zone: 'Europe/Madrid',
    batched: '2026-06-30T21:30Z',
    started: 28,
    ended: 95,
    left: 99,
    shows: ['23:30 +02:00', '01:05 +02:00'],
  },
  {
    name: 'across the year’s end',
    zone: 'Australia/Lord_Howe',
    batched: '2026-12-31T12:30Z',
    started: 25,
    ended: 89,
    left: 95,
    shows: ['23:30 +11:00', '00:59 +11:00'],
  },
  {
    name: 'across the spring night',
    zone: 'America/Chicago',
    batched: '2026-03-08T07:20Z',
    started: 36,
    ended: 90,
    left: 101,
    shows: ['01:20 -06:00', '03:50 -05:00'],
  },
  {
    name: 'across the spring night',
    zone: 'Europe/Madrid',
    batched: '2026-03-29T00:20Z',
    started: 36,
    ended: 91,
    left: 101,
    shows: ['01:20 +01:00', '03:51 +02:00'],
  },
  {
    name: 'across the spring night of half an hour',
    zone: 'Australia/Lord_Howe',
    batched: '2026-10-03T15:00Z',
    started: 29,
    ended: 63,
    left: 70,
    shows: ['01:30 +10:30', '03:03 +11:00'],
  },
  {
    name: 'across the autumn night',
    zone: 'America/Chicago',
    batched: '2026-11-01T06:20Z',
    started: 36,
    ended: 91,
    left: 101,
    shows: ['01:20 -05:00', '01:51 -06:00'],
  },
  {
    name: 'across the autumn night',
    zone: 'Europe/Madrid',
    batched: '2026-10-25T00:20Z',
    started: 36,
    ended: 90,
    left: 101,
    shows: ['02:20 +02:00', '02:50 +01:00'],
  },
  {
    name: 'across the autumn night of half an hour',
    zone: 'Australia/Lord_Howe',
    batched: '2026-04-04T14:30Z',
    started: 29,
    ended: 63,
    left: 70,
    shows: ['01:30 +11:00', '02:03 +10:30'],
  },
  {
    name: 'into 29 February',
    zone: 'America/Chicago',
    batched: '2028-02-29T05:30Z',
    started: 20,
    ended: 63,
    left: 70,
    shows: ['23:30 -06:00', '00:33 -06:00'],
  },
  {
    name: 'out of 29 February',
    zone: 'Europe/Madrid',
    batched: '2028-02-29T22:30Z',
    started: 20,
    ended: 118,
    left: 125,
    shows: ['23:30 +01:00', '01:28 +01:00'],
  },
  {
    name: 'from 28 February to 1 March',
    zone: 'Australia/Lord_Howe',
    batched: '2027-02-28T12:30Z',
    started: 20,
    ended: 63,
    left: 70,
    shows: ['23:30 +11:00', '00:33 +11:00'],
  },
]

/** A time as a phone on site writes it, by Luxon alone. */
const local = (utc: DateTime, zone: string): string =>
  utc.setZone(zone).toISO({ suppressSeconds: true, suppressMilliseconds: true })!
const minutesByLuxon = (from: string, to: string): number =>
  DateTime.fromISO(to).startOf('minute').diff(DateTime.fromISO(from).startOf('minute'), 'minutes').minutes

const figuresOf = (entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries))

describe('[calendar] a pour across a night that is unlike others', () => {
  test('[calendar] the zones are known here, or the rows below say nothing', () => {
    for (const { zone } of POURS) expect(IANAZone.isValidZone(zone)).toBe(true)
  })

  for (const { name, zone, batched, started, ended, left, shows } of POURS)
    test(`[calendar] ${name}, ${zone}: ${shows.join(' to ')}`, () => {
      const from = DateTime.fromISO(batched, { zone: 'utc' })
      const later = (minutes: number) => local(from.plus({ minutes }), zone)
      const [batchedAt, start, end, gone] = [later(0), later(started), later(ended), later(left)]
      expect(
        [batchedAt, end].map((at) => DateTime.fromISO(at, { setZone: true }).toFormat('HH:mm ZZ')),
      ).toEqual(shows)
      const entries = [
        entry('job.opened', { name: 'Tern Court', zone }, { at: batchedAt }),
        ticket({ batchedAt: { is: 'given', at: batchedAt } }, { at: batchedAt }),
        entry('load.arrived', { load: FIRST }, { at: batchedAt }),
        entry('discharge.started', { load: FIRST }, { at: start }),
        entry('discharge.ended', { load: FIRST }, { at: end }),
        entry('load.left', { load: FIRST }, { at: gone }),
        entry('discharge.started', { load: SECOND }, { at: later(ended + 97) }),
        entry('water.added', { load: FIRST, amount: given('8', 'gal') }, { at: later(started + 1) }),
      ]
      const figures = figuresOf(entries)
      const [load] = figures.loads
      expect([load!.batchToStart, load!.batchToEnd, load!.onSite].map((m) => m.minutes)).toEqual([
        [minutesByLuxon(batchedAt, start)],
        [minutesByLuxon(batchedAt, end)],
        [minutesByLuxon(batchedAt, gone)],
      ])
      expect(load!.limit).toMatchObject({
        verdict: minutesByLuxon(batchedAt, end) <= 90 ? 'inside' : 'outside',
        checks: [{ minutes: ended, limitMinutes: 90 }],
      })
      expect(figures.edgeGaps).toEqual([{ from: FIRST, to: SECOND, minutes: 97 }])
      expect(load!.oddities).toEqual([])
      // By the times the water went in a minute after the start, though the wall clock may have stepped back since.
      expect(load!.waterByStage.byTimes.afterBegan).toEqual({ n: 8n, d: 1n })
    })

  for (const { name, zone, batched } of POURS)
    test(`[late] ten minutes are in time and a millisecond more is late, ${name}, ${zone}`, () => {
      const at = DateTime.fromISO(batched, { zone: 'utc' }).plus({ minutes: 35 })
      const lateAfter = (milliseconds: number) => {
        const recordedAt = at.plus({ milliseconds }).setZone(zone).toISO()!
        const arrived = entry('load.arrived', { load: FIRST }, { at: at.setZone(zone).toISO()!, recordedAt })
        return foldJob(JOB, [arrived]).history.map(({ late, delayMinutes }) => [late, delayMinutes])
      }
      expect(lateAfter(600_000)).toEqual([[false, 10]])
      expect(lateAfter(600_001)).toEqual([[true, 10]])
    })
})

const ZONES = [
  'America/Chicago',
  'Europe/Madrid',
  'Australia/Lord_Howe',
  'America/Phoenix',
  'Asia/Kathmandu',
  'Pacific/Apia',
]
const anyInstant = fc.integer({ min: Date.UTC(2000, 0, 1), max: Date.UTC(2037, 11, 31) })
const anyZone = fc.constantFrom(...ZONES)

describe('[calendar] any instant, in any of six zones', () => {
  test('[calendar] is written as Luxon writes it, and read back', () => {
    fc.assert(
      fc.property(anyInstant, anyZone, (ms, zone) => {
        const text = toLocalTime(ms, zone)
        expect(text.replace('+00:00', 'Z')).toBe(
          DateTime.fromMillis(ms, { zone }).toISO()!.replace('+00:00', 'Z'),
        )
        expect(readLocalTime(text)).toBe(ms)
      }),
      { numRuns: 1_000, seed: 71340 },
    )
  })

  test('[minutes] lies as many minutes from another as Luxon counts', () => {
    fc.assert(
      fc.property(anyInstant, anyZone, anyInstant, anyZone, (a, zoneA, b, zoneB) => {
        const [from, to] = [toLocalTime(a, zoneA), toLocalTime(b, zoneB)]
        expect(minutesBetween(from, to)).toBe(minutesByLuxon(from, to))
      }),
      { numRuns: 1_000, seed: 71340 },
    )
  })

  test('[calendar] a day later is the day that Luxon says, over leap days and years', () => {
    fc.assert(
      fc.property(anyInstant, fc.integer({ min: -800, max: 800 }), (ms, days) => {
        const day = DateTime.fromMillis(ms, { zone: 'utc' })
        expect(daysLater(day.toISODate()!, days)).toBe(day.plus({ days }).toISODate())
      }),
      { numRuns: 1_000, seed: 71340 },
    )
  })
})
