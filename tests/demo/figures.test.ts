import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import type { JobModel } from '../../api/domain/record/job-model.ts'
import type { LoadModel } from '../../api/domain/record/load-model.ts'
import { DRIVE, LOAD_1, LOAD_2, PATIO } from '../../seeds/jobs/tern-court/site.ts'
import { buildDemo, type DemoHouse, modelOf, textsOf } from './demo-house.ts'

/**
 * Source: tests/cases/tern-court.json, the scenario with its arithmetic, worked out by hand before there was code. The job
 * is invented; its formulas are common practice, no source, water at 8.34 lb a gallon.
 */
const CASE = JSON.parse(readFileSync(new URL('../cases/tern-court.json', import.meta.url), 'utf8'))
const EXPECTED: Record<string, Record<string, number>> = CASE.expected_computed

let demo: DemoHouse
let job: JobModel
beforeAll(async () => {
  demo = await buildDemo()
  job = await modelOf(demo)
})
const load = (ordinal: number): LoadModel => job.loads.find((l) => l.ordinal === ordinal)!
const minutes = (span: LoadModel['onSite']): readonly number[] => (span.is === 'given' ? span.minutes : [])

describe('the demonstration’s figures are those that were worked out by hand', () => {
  test.each([1, 2, 3])('minutes from batching and on site, load %i', (n) => {
    const { batch_to_start_min, batch_to_end_min, on_site_min } = EXPECTED[n]!
    expect(minutes(load(n).batchToStart)).toEqual([batch_to_start_min])
    expect(minutes(load(n).batchToEnd)).toEqual([batch_to_end_min])
    expect(minutes(load(n).onSite)).toEqual([on_site_min])
  })

  test('load 2 ended outside its own ticket’s 90 minutes, the others inside theirs; nobody waived', () => {
    expect(job.loads.map((l) => l.limit.verdict)).toEqual(['inside', 'outside', 'inside'])
    expect(load(2).limit.checks).toMatchObject([
      { to: 'discharge-ended', limitMinutes: 90, minutes: 118, statedBy: 'ticket', verdict: 'outside' },
    ])
    expect(load(2).waived).toEqual([])
  })

  test('water: none is said of loads 1 and 3; load 2 had 12 gal before discharge and 8 after it began', () => {
    expect(job.loads.map((l) => l.water.sum.is)).toEqual(['none', 'given', 'none'])
    expect(load(2).water.sum).toMatchObject({ gallons: '20' })
    expect(load(2).water.stages).toMatchObject({
      before: '12',
      afterBegan: '8',
      inTransit: '0',
      notSaid: '0',
    })
    const asked = load(2).water.answers.map((answer) => answer.asked)
    expect(asked).toEqual([{ person: demo.built.people.curt }, { person: demo.built.people.beto }])
  })

  test('against the 16 gal that the ticket prints: 4 over for the load, 5.5 over for its last part', () => {
    const { over_allowed_gal, gal_per_yd_last_part, over_allowed_for_last_part_gal } = EXPECTED[2]!
    expect(load(2).ticketWaters.map((water) => water.allowance)).toMatchObject([
      {
        is: 'given',
        allowed: '16',
        added: '20',
        over: String(over_allowed_gal),
        lastPart: {
          gallonsPerYard: String(gal_per_yd_last_part),
          over: String(over_allowed_for_last_part_gal),
          byEye: 'yes',
        },
      },
    ])
  })

  test('w/cm of load 2’s parts: 0.441, then 0.464 by eye between 0.461 and 0.470, 0.456 on average', () => {
    const ratios = load(2).ticketWaters[0]!.ratios
    expect(ratios.map(({ part, ratio, range, byEye }) => ({ part, ratio, range, byEye }))).toEqual([
      { part: 'batched', ratio: '0.420', range: undefined, byEye: 'no' },
      { part: 'first', ratio: '0.441', range: undefined, byEye: 'no' },
      { part: 'last', ratio: '0.464', range: ['0.461', '0.470'], byEye: 'yes' },
      { part: 'whole', ratio: '0.456', range: undefined, byEye: 'no' },
    ])
  })

  test('17.43 yd³ formed, 18.5 ordered and ticketed, 18.45 placed: 5.8 % over', () => {
    expect(job.formed).toEqual({ is: 'given', yards: String(CASE.theoretical_yd3) })
    expect(job.parts.map((part) => part.yards)).toEqual(
      CASE.scope.map((part: { yd3: number }) => String(part.yd3)),
    )
    expect(job.ordered.sum).toEqual({ is: 'given', yards: String(CASE.ordered_yd3) })
    expect(job.ticketed).toMatchObject({ yards: '18.5', loadsWithout: 0 })
    expect(job.placed).toMatchObject({ yards: String(CASE.placed_yd3), loadsWithout: 0 })
    expect(job.overFormed).toEqual({
      is: 'given',
      percent: String(CASE.expected_computed.yd_over_theoretical_pct),
    })
  })

  test('97 minutes stood between the end of load 1 and the start of load 2', () => {
    expect(job.edgeGaps).toContainEqual(
      expect.objectContaining({
        from: LOAD_1,
        to: LOAD_2,
        minutes: CASE.expected_computed.gap_load1_end_to_load2_start_min,
      }),
    )
  })

  test('no times run backwards, and no load lacks what each is asked for', () => {
    expect(job.loads.flatMap((l) => [...l.oddities, ...l.missing])).toEqual([])
  })
})

describe('what is left open on purpose', () => {
  /** The scenario's words for each gap, and the gap that the fold finds. */
  const PLANTED: Record<string, object[]> = {
    'patio joints not recorded': [{ gap: 'joints', is: 'not-recorded', part: PATIO }],
    'nights after the first not recorded': [{ gap: 'nights', is: 'not-recorded', after: '2026-04-21' }],
    'slump and air after the second water not taken': [
      { gap: 'slump-after-water', is: 'not-taken', load: LOAD_2 },
      { gap: 'air-after-water', is: 'not-taken', load: LOAD_2 },
    ],
    'no waiver of the 90 min limit recorded': [{ gap: 'waiver', is: 'not-recorded', load: LOAD_2 }],
    'no surface temperature while bleed water stood': [{ gap: 'surface-temperature', is: 'not-recorded' }],
    'curb line of ticket 71352 unsigned': [{ gap: 'curb-line', is: 'left-blank', load: LOAD_2 }],
  }

  test.each(CASE.gaps_on_purpose as string[])('%s', (words) => {
    for (const gap of PLANTED[words]!) expect(job.gaps).toContainEqual(gap)
  })

  test('nothing else is open but the cylinders of load 2, which were not made', () => {
    const planted = Object.values(PLANTED).flat()
    expect(planted).toHaveLength(7)
    expect(job.gaps.filter((gap) => !planted.some((p) => JSON.stringify(p) === JSON.stringify(gap)))).toEqual(
      [{ gap: 'cylinders', is: 'not-taken', load: LOAD_2 }],
    )
  })
})

describe('how the demonstration is logged', () => {
  test('through the front door: two phones and the office, each with entries of its own, all in the log', async () => {
    const entries = (await textsOf(demo, demo.built.job)).map((text) => JSON.parse(text))
    const makers = new Map<string, number>()
    for (const { device } of entries) makers.set(device, (makers.get(device) ?? 0) + 1)
    // The server's own device is the fourth: it says that photos came.
    expect(makers.size).toBe(4)
    expect(entries.filter((e) => e.kind === 'photo.received')).toHaveLength(21)
  })

  test('under an origin that says that it is a demonstration', async () => {
    expect((await demo.world.store.company(demo.built.company))?.origin).toBe(
      `screedbook-demo/${demo.built.company}`,
    )
  })

  test('received when it was logged, but for four entries that waited behind the house, up to half an hour', async () => {
    const leaves = await demo.world.store.thread(demo.built.company, demo.built.job)
    const waits = leaves.map(({ bytes, receivedAt }) => {
      const { recordedAt } = JSON.parse(new TextDecoder().decode(bytes!))
      return (receivedAt - Date.parse(recordedAt)) / 60_000
    })
    expect(Math.min(...waits)).toBeGreaterThanOrEqual(0)
    expect(waits.filter((minutes) => minutes > 1)).toHaveLength(4)
    expect(Math.max(...waits)).toBeLessThan(30)
  })

  test('one value was typed wrong: the correction says why, and the first value stays in the history', () => {
    const [change, ...more] = job.changes
    expect(more).toEqual([])
    const correction = job.history.find((line) => line.entry === change!.entry)
    expect(correction?.why).toEqual({ lang: 'en', text: 'I typed 7:50; the ticket prints batched 7:05.' })
    expect(job.history.some((line) => line.entry === change!.names[0])).toBe(true)
    expect(load(1).tickets.map((ticket) => ticket.batchedAt)).toEqual([
      { is: 'given', at: '2026-04-21T07:05-05:00' },
    ])
  })

  test('weather, where loads went and what was left over were logged late, and are marked so', () => {
    const late = job.history.filter((line) => line.late === 'yes').map((line) => line.kind)
    expect(late.filter((kind) => kind !== 'weather.observed').sort()).toEqual([
      'concrete.left',
      'concrete.left',
      'load.placed',
      'load.placed',
      'load.placed',
    ])
  })

  test('Beto’s words stand in Spanish, and Nora’s in English as hers', () => {
    const words = [...job.remarks, ...job.loads.flatMap((l) => l.remarks)]
    expect(words.filter((r) => r.lang === 'es').every((r) => r.text.startsWith('Beto: «'))).toBe(true)
    expect(words.filter((r) => r.lang === 'es')).toHaveLength(4)
    expect(words.filter((r) => r.text.startsWith('Nora, by text: “'))).toHaveLength(3)
  })

  test('every weather row says that it is a service’s, for a station 11 miles off', () => {
    expect(job.said.weather).toHaveLength(14)
    for (const { body } of job.said.weather)
      expect(body).toMatchObject({ source: 'service', distance: { text: '11', unit: 'mi' } })
    expect(
      job.said.weather
        .slice(0, 13)
        .map(({ body }) => [Number(body.air?.text), Number(body.humidity?.text), Number(body.wind?.text)]),
    ).toEqual(CASE.weather_phone_service.map(([, ...row]: (string | number)[]) => row))
  })

  test('a second build over the same keys gives the same bytes, entry for entry', async () => {
    expect(await textsOf(await buildDemo())).toEqual(await textsOf(demo))
  })

  test('the drive is where load 1 ends and load 2 begins', () => {
    const places = job.loads.map((l) => l.placed.flatMap(({ body }) => body.places))
    expect(places[0]).toMatchObject([{ part: DRIVE, to: { text: '24.6' } }])
    expect(places[1]![0]).toMatchObject({ part: DRIVE, from: { text: '24.6' }, to: { text: '40' } })
  })
})
