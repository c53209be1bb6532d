import { beforeAll, describe, expect, test } from 'vitest'
import type { Happening } from '../../api/domain/entry/make.ts'
import type { KnownEntry } from '../../api/domain/job/standing.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { LANGUAGES } from '../../api/domain/words/words.ts'
import { buildDemo, modelOf } from '../demo/demo-house.ts'
import { entry, stamp, ticket } from './job/pour.ts'
import { at, linesWith, modelWith, opened, planned, rowsOf } from './record-kit.ts'

const chosen = (body: Happening<'editions.chosen'>['body']): KnownEntry =>
  entry('editions.chosen', body, { at: at('06:20') })

/** 118 minutes from batching, of a ticket that prints no limit. */
const LOAD = [
  opened,
  planned,
  ticket({ limit: { is: 'not-stated' } }),
  stamp('discharge.started', '08:30'),
  stamp('discharge.ended', '09:03'),
]

describe('an edition that was chosen', () => {
  /** Source of the limits: ASTM C94-21 §6.1.10; C94-98 §10.7; ASCC position paper 32. */
  test.each([
    [undefined, 'C94-21', '', '', 'limit-not-stated', 'limit not stated'],
    ['C94-13', 'C94-13', '90', '2013 to 2020', 'outside', 'at most 90 min'],
    ['C94-98', 'C94-98', '90', '1998', 'outside', 'at most 90 min'],
  ] as const)(
    '[record] %s: table and page name it and its values',
    (discharge, edition, to, year, verdict, heading) => {
      const entries = [...LOAD, ...(discharge ? [chosen({ discharge })] : [])]
      const row = rowsOf(modelWith(entries), 'findings').find((one) => one.of === 'discharge-minutes')
      expect(row).toMatchObject({
        value: '118',
        unit: 'min',
        to,
        editions: edition,
        choices: 'discharge',
        limit_edition: year,
        chosen_in: discharge ? '6' : 'usual',
        verdict,
      })
      const lines = linesWith(entries)
      expect(lines).toContain(`Batching to the limit’s event: ${heading}`)
      const source = lines.find((line) => /^(?!Chosen).*imit of discharge: /.test(line))
      expect(source).toContain(discharge ? '(chosen, entry 6)' : '(usual, nobody chose)')
      expect(source).toContain(edition === 'C94-13' ? 'ASTM C94, 2013 to 2020' : `ASTM ${edition}`)
    },
  )

  test('[record] two that choose one thing otherwise stand both, with a table for each', () => {
    const rivals = [chosen({ discharge: 'C94-13' }), chosen({ discharge: 'C94-98' })]
    const lines = linesWith([...LOAD, ...rivals])
    expect(lines.filter((line) => line.startsWith('Batching to the limit’s event: '))).toHaveLength(2)
    expect(lines.filter((line) => line.startsWith('Chosen for this job: '))).toHaveLength(2)
  })

  test('[record] model, table and page are told in both languages, from the same codes', () => {
    for (const language of LANGUAGES) {
      const lines = linesWith([...LOAD, chosen({ discharge: 'C94-98' })], { language })
      expect(
        lines.some((line) => line.includes(language === 'en' ? 'at most 90 min' : 'a lo más 90 min')),
      ).toBe(true)
      expect(lines.join('\n')).not.toMatch(/undefined|\{\w+\}|C94-98: undefined/)
    }
  })
})

describe('the demonstration', () => {
  let model: RecordModel
  beforeAll(async () => {
    const job = await modelOf(await buildDemo())
    const frame = modelWith([])
    model = {
      ...frame,
      job,
      thread: job.history.map(({ entry: hash }, i) => ({
        count: i + 1,
        entry: hash,
        receivedAt: frame.made,
        is: 'given',
      })),
    }
  })

  const rates = () =>
    rowsOf(model, 'findings')
      .filter((row) => row.of === 'evaporation' && row.load === '2')
      .map((row) => [row.at?.slice(11, 16), row.value, row.input_surface])

  /** Worked by hand of the rows of the weather, US form of Uno 1998: JOB’s own figures for that day. */
  test('[demo] evaporation of load 2 by its last measured temperature, hour by hour', () => {
    expect(rates()).toEqual([
      ['10:00', '0.166', '66'],
      ['11:00', '0.186', '66'],
      ['12:00', '0.186', '66'],
      ['13:00', '0.174', '66'],
      ['14:00', '0.164', '66'],
      ['15:00', '0.154', '66'],
    ])
  })

  test('[demo] an expert works the same rates out by hand from the table alone', () => {
    for (const row of rowsOf(model, 'findings').filter((one) => one.of === 'evaporation')) {
      const [t, a, r, v] = ['input_surface', 'input_air', 'input_humidity', 'input_wind'].map((name) =>
        Number(row[name]),
      )
      const rate = (t! ** 2.5 - (r! / 100) * a! ** 2.5) * (1 + 0.4 * v!) * 1e-6
      expect(row.value).toBe(rate.toFixed(3))
      expect(row.verdict).toBe(rate < Number(row.to) ? 'inside' : 'outside')
    }
  })

  test('[demo] the page says the rate, what it was worked out from, and that the wind was not the slab’s', () => {
    const lines = pageLines(pageOf(model))
    const at11 = lines.indexOf('Load 2, 11:00')
    expect(lines.slice(at11, at11 + 3)).toEqual([
      'Load 2, 11:00',
      '0.186 lb/ft²/h from concrete, last measured 66 °F, air 60 °F, humidity 37 %, wind 16 mph',
      'inside; station’s wind, not at the slab; within 40 % of the threshold, which is what such a rate is good to',
    ])
    expect(lines).toContain('Evaporation rate: below 0.2 lb/ft²/h')
    expect(lines).toContain(
      'Nobody chose an edition for this job: the usual one of each holds, named with its figures.',
    )
  })

  test('[demo] the rest of the day beside its limits', () => {
    const told = rowsOf(model, 'findings')
      .filter((row) => row.of !== 'evaporation')
      .map((row) => [row.of, row.load || row.parts, row.value, row.from, row.to, row.verdict].join(' '))
    expect(told).toEqual(
      expect.arrayContaining([
        'discharge-minutes 2 118  90 outside',
        'slump 2 2.5 3 5 outside',
        'air 2 5.4 5 8 inside',
        'cold-weather  33 40  outside',
        'placing-temperature 2 66 55 75 inside',
        'hot-temperature 2 66  95 inside',
        'minutes-to-cylinders 1 18  15 not-recorded',
        'strength-test 1 5050 4000  inside',
        'strength-mean-of-three  not-recorded 4500  not-recorded',
        'joint-spacing Drive 10  15 inside',
        'joint-depth Drive 1.25 1.25  inside',
        'saw-hours Drive 17.4 4 12 outside',
        'hours-covered Drive 12.8 72  outside',
        'hours-covered Patio not-recorded 72  not-recorded',
      ]),
    )
  })

  test('[record] each finding names its source, or says that no limit is stated, and the entries that it rests on', () => {
    for (const finding of model.job.findings) {
      if (finding.verdict !== 'limit-not-stated') expect(finding.source?.title, finding.of).toMatch(/\S/)
      expect(finding.entries.length, finding.of).toBeGreaterThan(0)
      for (const hash of finding.entries) expect(model.thread.some((slot) => slot.entry === hash)).toBe(true)
    }
  })

  test('[record] a record of a part says “not in this record” and never that something was not recorded', () => {
    const part = {
      ...model,
      thread: model.thread.map((slot, i) => (i === 3 ? { ...slot, is: 'withheld' as const } : slot)),
    }
    const lines = pageLines(pageOf(part))
    const head = lines.indexOf('Against published limits')
    const section = lines.slice(head, lines.indexOf('Remarks') > head ? lines.indexOf('Remarks') : head + 250)
    expect(section.join('\n')).not.toMatch(/not recorded|nobody chose|no cure logged/i)
    expect(section).toContain(
      'This record holds no choice of an edition: the usual one of each is used, named with its figures.',
    )
  })
})
