import { DateTime } from 'luxon'
import { describe, expect, test } from 'vitest'
import { foldJob } from '../../../api/domain/job/fold.ts'
import { lastNightTold } from '../../../api/domain/job/nights.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { entry, FIRST, JOB } from './pour.ts'

const lastNight = (entries: readonly KnownEntry[]): string | undefined => {
  const view = foldJob(JOB, entries)
  return lastNightTold(view, view.loads)
}

/** A site's day and what is logged on it, every time worked out by Luxon. */
const site = (zone: string, day: string, phone = zone) => {
  const when = (days: number, clock: string) =>
    DateTime.fromISO(`${day}T${clock}`, { zone }).plus({ days }).setZone(phone).toISO()!
  return {
    opened: entry('job.opened', { name: 'Tern Court', zone }),
    ended: (days: number, clock: string) =>
      entry('discharge.ended', { load: FIRST }, { at: when(days, clock) }),
    cover: (what: 'blankets' | 'plastic' | 'wet-cloth', change: 'on' | 'off', days: number, clock: string) =>
      entry('cover.placed', { what, change }, { at: when(days, clock) }),
    surface: (days: number, clock: string) =>
      entry(
        'temperature.measured',
        { of: 'surface', temperature: { is: 'given', text: '52', unit: 'degF' } },
        { at: when(days, clock) },
      ),
    evening: (days: number) => DateTime.fromISO(day, { zone }).plus({ days }).toISODate()!,
  }
}

/** Over each zone's nights of 23, 24½, 23½ and 25 hours, over 29 February, and over the year's end. */
const DAYS: readonly (readonly [string, string])[] = [
  ['America/Chicago', '2026-04-21'],
  ['America/Chicago', '2026-03-07'],
  ['America/Chicago', '2026-10-31'],
  ['Europe/Madrid', '2026-03-28'],
  ['Europe/Madrid', '2026-10-24'],
  ['Australia/Lord_Howe', '2026-04-04'],
  ['Australia/Lord_Howe', '2026-10-03'],
  ['America/Chicago', '2028-02-28'],
  ['Europe/Madrid', '2026-12-31'],
]

describe('[nights] the last night up to which each is told of', () => {
  for (const [zone, day] of DAYS) {
    const { opened, ended, cover, surface, evening } = site(zone, day)
    const pour = [opened, ended(0, '10:19')]

    test(`[nights] ${day}, ${zone}: blankets from 18:10 to 07:00 tell of the first night alone`, () => {
      const covered = [...pour, cover('blankets', 'on', 0, '18:10'), cover('blankets', 'off', 1, '07:00')]
      expect(lastNight(pour)).toBeUndefined()
      expect(lastNight(covered)).toBe(evening(0))
    })

    test(`[nights] ${day}, ${zone}: each further night by a reading in it, until one is left out`, () => {
      const readings = [surface(0, '22:00'), surface(2, '05:59'), surface(2, '18:00'), surface(4, '22:00')]
      expect(lastNight([...pour, ...readings])).toBe(evening(2))
      expect(lastNight([...pour, surface(1, '06:00'), surface(0, '17:59')])).toBeUndefined()
    })

    test(`[nights] ${day}, ${zone}: a phone that keeps another zone tells of the site’s nights`, () => {
      const far = site(zone, day, 'Asia/Tokyo')
      const readings = [far.surface(0, '22:00'), far.surface(2, '05:30'), far.surface(2, '19:00')]
      expect(lastNight([opened, far.ended(0, '10:19'), ...readings])).toBe(evening(2))
    })
  }
})

describe('[nights] covers', () => {
  const { opened, ended, cover, evening } = site('America/Chicago', '2026-04-21')
  const pour = [opened, ended(0, '10:19')]
  test('[nights] left on tells of its first night, since nobody said that it stayed; wet cloth of none', () => {
    expect(lastNight([...pour, cover('blankets', 'on', 0, '18:10')])).toBe(evening(0))
    expect(lastNight([...pour, cover('wet-cloth', 'on', 0, '18:10')])).toBeUndefined()
  })
  test('[nights] taken off the same evening tells of none; after three days of three', () => {
    const on = cover('plastic', 'on', 0, '13:00')
    expect(lastNight([...pour, on, cover('plastic', 'off', 0, '22:00')])).toBeUndefined()
    expect(lastNight([...pour, on, cover('plastic', 'off', 3, '09:00')])).toBe(evening(2))
    expect(lastNight([...pour, on, cover('blankets', 'off', 3, '09:00')])).toBe(evening(0))
  })
  test('[nights] of a pour that ends after midnight the first night is the one that it ends in', () => {
    const late = [
      opened,
      ended(1, '00:30'),
      cover('blankets', 'on', 1, '01:30'),
      cover('blankets', 'off', 1, '07:00'),
    ]
    expect(lastNight(late)).toBe(evening(0))
  })
  test('[nights] on by a clock that was off by years, they end all the same', () => {
    const years = [...pour, cover('blankets', 'on', 0, '18:10'), cover('blankets', 'off', 9_999, '07:00')]
    expect(lastNight(years)).toBe(evening(365))
  })
  test('[nights] in the last hours of the year 9999, a year of five digits on site, nothing breaks', () => {
    const end = entry('discharge.ended', { load: FIRST }, { at: '9999-12-31T23:59-12:00' })
    expect(lastNight([opened, end])).toBeUndefined()
  })
  test('[nights] a temperature that was not taken tells of none', () => {
    const at = '2026-04-21T22:00-05:00'
    const notTaken = entry(
      'temperature.measured',
      { of: 'surface', temperature: { is: 'not-taken' } },
      { at },
    )
    expect(lastNight([...pour, notTaken])).toBeUndefined()
  })
})
