import { describe, expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import type { KnownEntry } from '../../api/domain/job/standing.ts'
import { pageOf } from '../../api/domain/record/page/page.ts'
import { typeset } from '../../api/server/record/typeset/typeset.ts'
import { pageDifference } from '../../api/verify/page-text.ts'
import { entry, FIRST, SECOND, ticket } from './job/pour.ts'
import { at, DRIVE, gal, inches, linesWith, modelWith, opened, PATIO, planned, yd3 } from './record-kit.ts'

const cone = { slump: inches('4'), how: 'cone' } as const
const slump = (load: string, clock: string, body: object = cone) =>
  entry('slump.measured', { load, ...body } as never, { at: at(clock) })
const stamp = (
  kind: 'load.arrived' | 'discharge.started' | 'discharge.ended' | 'load.left',
  load: string,
  clock: string,
) => entry(kind, { load }, { at: at(clock) })

/** Load 2 of Tern Court. Source: tests/cases/tern-court.json, worked out by hand. */
const TICKET = ticket({
  batchedAt: { is: 'given', at: at('08:21') },
  batchedWater: gal('233.6'),
  cementitious: { is: 'given', text: '580', unit: 'lb/yd3' },
  maxWaterCement: { is: 'given', text: '0.45', unit: 'one' },
  allowance: gal('16'),
})
const BEFORE = entry(
  'water.added',
  { load: FIRST, amount: gal('12'), stage: 'before-discharge', asked: { called: 'Curt' } },
  { at: at('09:40') },
)
const AFTER = entry(
  'water.added',
  {
    load: FIRST,
    amount: gal('8'),
    stage: 'after-discharge-began',
    inDrum: { yards: yd3('5'), how: 'by-eye', from: yd3('4'), to: yd3('6') },
    asked: { called: 'Beto' },
    added: { called: 'the driver' },
    mixed: { is: 'given', text: '3', unit: 'min' },
  },
  { at: at('10:00') },
)
const MIX = entry('mix.ordered', {
  slump: { is: 'target', target: inches('4'), tolerance: inches('1') },
  air: {
    is: 'given',
    from: { is: 'given', text: '5', unit: 'pct' },
    to: { is: 'given', text: '8', unit: 'pct' },
  },
})

describe('water on the page', () => {
  const lines = linesWith([opened, TICKET, BEFORE, AFTER])

  test('[record] stands by when it went in, with who asked, who added, and what was still in the drum', () => {
    expect(lines).toContain('20 gal in all')
    expect(
      lines.some((line) =>
        line.startsWith(
          '8 gal, after discharge began, still in the drum: 5 yd³ (4–6 yd³), by eye, asked by: Beto, added by: the driver, mixed on: 3 min, 10:00',
        ),
      ),
    ).toBe(true)
    expect(lines).toContain('12 gal before discharge')
    expect(lines).toContain('8 gal after discharge began')
  })

  test('[record] is set against the allowance that the ticket prints, and against the last part’s share', () => {
    expect(lines).toContain('outside: 20 gal, ticket 16 gal; 4 gal over')
    expect(
      lines.some((line) => line.startsWith('3.1 gal/yd³ in all on site, 5.5 gal over that part’s share')),
    ).toBe(true)
  })

  test('[record] gives what rests on an eye in two decimals with its range, and the rest in three', () => {
    expect(lines).toContain('last part: about 0.46 (0.464 if 5 yd³ were left; 0.461–0.470 for 4–6 yd³)')
    expect(lines).toContain('first part: 0.441')
    expect(lines).toContain('whole load: 0.456')
    expect(lines.some((line) => line.includes('8.34 lb/gal'))).toBe(true)
  })

  test('[record] gives no ratio where the ticket lacks what it needs, and says what', () => {
    expect(linesWith([opened, ticket(), BEFORE])).toContain(
      'not worked out: the ticket as logged does not give water batched, cementitious',
    )
    expect(linesWith([opened, TICKET])).toContain('with site water: not worked out, since it is not recorded')
  })

  test('[record] a drum that can’t be is told as logged and not worked out, never as not recorded', () => {
    // The ends of the range stand the wrong way round; and more left than the ticket's eight yards.
    for (const inDrum of [
      { yards: yd3('5'), how: 'by-eye', from: yd3('6'), to: yd3('4') },
      { yards: yd3('9'), how: 'measured' },
    ] as const) {
      const odd = linesWith([
        opened,
        TICKET,
        BEFORE,
        entry(
          'water.added',
          { load: FIRST, amount: gal('8'), stage: 'after-discharge-began', inDrum },
          { at: at('10:00') },
        ),
      ])
      expect(odd[odd.indexOf('For what was still in the drum') + 1]).toBe('not worked out')
      expect(odd).toContain(
        'last part: not worked out, since what is logged of what was still in the drum does not fit the ticket or its own range',
      )
    }
    const silent = linesWith([
      opened,
      TICKET,
      BEFORE,
      entry(
        'water.added',
        { load: FIRST, amount: gal('8'), stage: 'after-discharge-began' },
        { at: at('10:00') },
      ),
    ])
    expect(silent[silent.indexOf('For what was still in the drum') + 1]).toBe('not recorded')
  })

  test('[record] of water that nobody logged, no comparison is made', () => {
    const silent = linesWith([opened, TICKET])
    expect(silent).toContain('no figure: how much was added is not known')
    expect(silent.some((line) => /^(?:inside|outside): .*gal/.test(line))).toBe(false)
  })
})

describe('what was not recorded', () => {
  test('[L10] none, not taken, not stated and not recorded of one thing are four different texts', () => {
    const cylinders = (number: object) => entry('cylinders.made', { load: FIRST, number } as never)
    const rowOf = (...more: KnownEntry[]) => {
      const lines = linesWith([opened, stamp('load.arrived', FIRST, '07:33'), ...more])
      return lines[lines.indexOf('Cylinders') + 1]!
    }
    expect(rowOf(cylinders({ is: 'none' }))).toMatch(/^none made, /)
    expect(rowOf(cylinders({ is: 'not-taken' }))).toMatch(/^not taken, /)
    expect(rowOf()).toBe('not recorded')
    expect(linesWith([opened, ticket({ driver: { is: 'not-stated' } })])).toContain(
      'not stated on the ticket',
    )
  })

  test('[record] a row that no load says is left out, and named among what was not recorded', () => {
    const lines = linesWith([opened, ticket()])
    expect(lines).not.toContain('Density')
    expect(lines.find((line) => line.startsWith('Of no load was anything logged on:'))).toMatch(
      /Driver.*Crew ready.*Density.*Strength/,
    )
    const said = [opened, ticket(), entry('density.measured', { load: FIRST, density: { is: 'not-taken' } })]
    expect(linesWith(said)).toContain('Density')
  })

  test('[record] names each gap with its load, part or night, before what the record does not show', () => {
    const lines = linesWith([
      opened,
      planned,
      ticket(),
      stamp('discharge.started', FIRST, '07:41'),
      stamp('discharge.ended', FIRST, '08:50'),
      entry('cure.applied', { parts: [DRIVE] }, { at: at('12:35') }),
      entry('cover.placed', { what: 'blankets', change: 'on', parts: [DRIVE] }, { at: at('18:10') }),
    ])
    expect(lines).toContain('A waiver of the limit: not recorded (Load 1)')
    expect(lines).toContain('Curing: not recorded (Patio)')
    expect(lines).toContain('Joints: not recorded (Drive, Patio)')
    expect(lines).toContain('Protection and temperature at night after the night of 2026-04-21: not recorded')
    expect(lines).toContain('Arrival: not recorded (Load 1)')
    expect(lines.indexOf('What was not recorded')).toBeLessThan(
      lines.indexOf('What this record does not show'),
    )
  })
})

describe('answers and comparisons', () => {
  test('[record] a reading stands beside what was ordered, and what was judged by eye says so twice', () => {
    const lines = linesWith([
      opened,
      MIX,
      slump(FIRST, '07:51', {
        ...cone,
        taking: { sampledAt: at('07:48'), point: 'first-third', water: 'before' },
      }),
      slump(FIRST, '07:40', { slump: inches('2 1/2'), how: 'by-eye' }),
    ])
    expect(
      lines.some(
        (line) =>
          line.startsWith('2 1/2 in, by eye, not measured, 07:40') &&
          line.endsWith('; by eye: outside (order: 3–5 in)'),
      ),
    ).toBe(true)
    expect(
      lines.some((line) =>
        line.endsWith('; inside (order: 3–5 in); sampled 07:48, first third of the load, before the water'),
      ),
    ).toBe(true)
  })

  test('[record] two tickets stand side by side, with the figures of each', () => {
    const lines = linesWith([
      opened,
      ticket(),
      ticket({ batchedAt: { is: 'given', at: at('07:15') } }),
      stamp('discharge.ended', FIRST, '08:40'),
    ])
    expect(lines).toContain('85 min or 95 min')
    expect(lines).toContain('inside: 85 of 90 min')
    expect(lines).toContain('outside: 95 min, limit 90 min')
    expect(lines).toContain('two answers to one question stand; figures are given for each')
  })

  test('[record] outside its limit with nobody recorded to have waived it says that; a waiver says by whom', () => {
    const late = [opened, ticket(), stamp('discharge.ended', FIRST, '09:00')]
    expect(linesWith(late)).toContain('no waiver recorded')
    const waived = linesWith([...late, entry('limit.waived', { load: FIRST, who: { called: 'Curt' } })])
    expect(waived).not.toContain('no waiver recorded')
    expect(waived.some((line) => line.startsWith('by Curt, 07:05'))).toBe(true)
  })

  test('[record] what can’t all be so is told in the load’s own column', () => {
    const ahead = entry('load.arrived', { load: FIRST }, { at: at('09:00'), recordedAt: at('08:30') })
    expect(linesWith([opened, ahead])).toContain('something is said to have happened after it was recorded')
    expect(linesWith([opened, ahead]).find((line) => line.startsWith('Ahead: entry 2'))).toContain(
      '09:00; said to have occurred 09:00, 30 min after it was recorded',
    )
    expect(linesWith([opened, stamp('load.arrived', FIRST, '09:00')])).toContain('nothing found')
  })
})

describe('yards', () => {
  test('[record] of which nothing is known are not recorded, never nought', () => {
    const ordered = entry('concrete.ordered', { yards: yd3('16') })
    const lines = linesWith([opened, ordered, stamp('load.arrived', FIRST, '07:33')])
    expect(lines).toContain(
      'Ordered: 16 yd³. On the tickets: not recorded. Ticketed less ordered: not recorded.',
    )
    expect(lines).toContain(
      'Formed: not recorded. Placed (on the tickets, less left over): not recorded. Left over: not recorded.',
    )
  })

  test('[record] are formed by the plan, and placed is what the tickets say less what was left', () => {
    const left = entry('concrete.left', { load: FIRST, yards: yd3('0.5'), how: 'measured', to: 'washed-out' })
    const lines = linesWith([opened, planned, ticket(), left])
    expect(lines).toContain('40 ft × 20 ft × 5 in')
    expect(lines).toContain('12.35 yd³')
    expect(lines).toContain(
      'Formed: 15.11 yd³. Placed (on the tickets, less left over): 7.5 yd³. Left over: 0.5 yd³.',
    )
    expect(lines.some((line) => line.startsWith('0.5 yd³, measured, washed out, 07:05'))).toBe(true)
  })
})

describe('joins and corrections', () => {
  test('[record] joined loads are told with both ids, by whom, and how they are parted', () => {
    const join = entry('loads.joined', { loads: [FIRST, SECOND] }, { at: at('11:00') })
    const lines = linesWith([
      opened,
      stamp('load.arrived', FIRST, '07:33'),
      stamp('load.left', SECOND, '08:14'),
      join,
    ])
    const told = lines.find((line) => line.includes(SECOND))
    expect(told).toContain(`Load 1: ${FIRST}, ${SECOND} (11:00, `)
    expect(told).toContain('Taking back entry 4 parts them again.')
  })

  test('[record] a correction of a long body tells the members that differ, and marks only those where they are read', () => {
    const wrong = ticket({ batchedAt: { is: 'given', at: at('07:50') } })
    const right = ticket({}, { corrects: [wrong.hash] })
    const lines = linesWith([opened, wrong, right])
    expect(lines.find((line) => line.includes('Before: entry 2'))).toMatch(
      /Before: entry 2: batched: 07:50, [^.]*\. Now: batched: 07:05; the rest as before\./,
    )
    expect(lines).toContain('07:05; corrected, first: see entry 2')
    expect(lines).toContain('71340')
  })

  test('[record] a corrected time of what has a value of its own is told too', () => {
    const early = entry('water.added', { load: FIRST, amount: gal('8') }, { at: at('10:00') })
    const late = entry(
      'water.added',
      { load: FIRST, amount: gal('8') },
      { at: at('10:20'), corrects: [early.hash] },
    )
    const line = linesWith([opened, early, late]).find((one) => one.includes('Before: entry 2'))
    expect(line).toContain('8 gal, 10:00')
    expect(line).toContain('Now: 8 gal, 10:20')
  })
})

describe('the site’s time', () => {
  test('[record] is the job’s zone, whatever zone a device was in, with the device’s own where it differs', () => {
    const office = entry('load.left', { load: FIRST }, { at: '2026-04-21T07:14-06:00' })
    expect(
      linesWith([opened, stamp('load.arrived', FIRST, '07:33'), office]).some((line) =>
        line.startsWith('08:14 (07:14 UTC-06:00), '),
      ),
    ).toBe(true)
  })

  test('[record] says the date and the offset of another day, also when the clocks have changed since', () => {
    const call = entry(
      'remark.made',
      { remark: { lang: 'en', text: 'A crack.' } },
      { at: '2026-11-21T10:31-06:00' },
    )
    const lines = linesWith([opened, stamp('load.arrived', FIRST, '07:33'), call])
    expect(lines.some((line) => line.includes('“A crack.” (2026-11-21 10:31 UTC-06:00, '))).toBe(true)
  })

  test('[record] of a job with two zones, each time is shown as its device had it', () => {
    const other = entry('job.opened', { name: 'Tern Court', zone: 'America/Denver' }, { at: at('06:01') })
    const office = entry('load.left', { load: FIRST }, { at: '2026-04-21T07:14-06:00' })
    expect(
      linesWith([opened, other, stamp('load.arrived', FIRST, '07:33'), office]).some((line) =>
        line.startsWith('07:14 UTC-06:00, '),
      ),
    ).toBe(true)
  })
})

describe('a demonstration', () => {
  test('[L12] says DEMO in its title and at the foot of every sheet, in both languages; another record nowhere', async () => {
    for (const language of ['en', 'es'] as const) {
      const page = pageOf(modelWith([opened, planned, TICKET, BEFORE, AFTER], { language, demo: true }))
      expect(page.title).toMatch(/^DEMO, /)
      const pdf = await typeset(page, { language, createdAt: 0 })
      if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
      const sheets = await readPdfText(pdf.value)
      expect(sheets.length).toBeGreaterThan(1)
      for (const sheet of sheets) expect(sheet.split('DEMO').length).toBeGreaterThan(1)
      expect(await pageDifference(page, () => readPdfText(pdf.value))).toBeUndefined()
    }
    expect(linesWith([opened]).join(' ')).not.toContain('DEMO')
  })
})

describe('long lists', () => {
  test('[record] of many loads and words too long for their column are all on paper, in order', async () => {
    const loads = Array.from(
      { length: 8 },
      (_, i) => `019db000-0000-7000-8000-0000000001${String(i).padStart(2, '0')}`,
    )
    const long = 'W'.repeat(80)
    const entries = [
      opened,
      planned,
      ...loads.flatMap((load, i) => [
        ticket({ load, producer: { is: 'given', text: long } }, { at: at(`07:${10 + i}`) }),
        entry('load.rejected', {
          load,
          reason: 'late',
          words: { lang: 'en', text: `${long} `.repeat(12).trim() },
        }),
        entry('load.placed', { load, places: [{ part: PATIO }], how: 'by-eye', said: long.repeat(2) }),
      ]),
      ...Array.from({ length: 60 }, (_, i) =>
        entry(
          'finish.done',
          { step: 'float', where: `${long}${i}` },
          { at: at(`12:${String(i).padStart(2, '0')}`) },
        ),
      ),
      ...Array.from({ length: 30 }, () =>
        entry('weather.observed', {
          source: 'gauge-here',
          station: long,
          wind: { is: 'given', text: '1234567.123456', unit: 'mph' },
        }),
      ),
    ]
    const page = pageOf(modelWith(entries))
    const pdf = await typeset(page, { language: 'en', createdAt: 0 })
    if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
    expect(await pageDifference(page, () => readPdfText(pdf.value))).toBeUndefined()
  })
})
