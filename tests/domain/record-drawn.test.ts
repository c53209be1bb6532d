import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Drawing, freeRow, SHEET_WIDE } from '../../api/domain/record/page/drawing.ts'
import { pageOf } from '../../api/domain/record/page/page.ts'
import { axisOf } from '../../api/domain/record/page/timeline/axis.ts'
import { anyJob, entriesOf } from '../kit/any-job.ts'
import { recordOf } from '../kit/fold-laws.ts'
import { entry, FIRST, SECOND } from './job/pour.ts'
import { at, DRIVE, gal, inches, linesWith, modelWith, opened, planned, yd3 } from './record-kit.ts'

const ticket = entry(
  'ticket.recorded',
  {
    load: FIRST,
    number: { is: 'given', text: '71352' },
    truck: { is: 'given', text: '106' },
    yards: yd3('8'),
    batchedAt: { is: 'given', at: at('08:21') },
    limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
  },
  { at: at('09:39') },
)
const stamp = (
  kind:
    | 'load.arrived'
    | 'discharge.started'
    | 'discharge.paused'
    | 'discharge.resumed'
    | 'discharge.ended'
    | 'load.left',
  clock: string,
  load = FIRST,
) => entry(kind, { load }, { at: at(clock) })
const water = entry(
  'water.added',
  { load: FIRST, amount: gal('8'), stage: 'after-discharge-began' },
  { at: at('10:00'), recordedAt: at('10:20') },
)
const POUR = [
  opened,
  planned,
  ticket,
  stamp('load.arrived', '09:38'),
  stamp('discharge.started', '09:45'),
  stamp('discharge.paused', '09:58'),
  stamp('discharge.resumed', '10:03'),
  stamp('discharge.ended', '10:19'),
  stamp('load.left', '10:25'),
  water,
  entry('slump.measured', { load: FIRST, slump: inches('4'), how: 'cone' }, { at: at('09:44') }),
  entry(
    'load.placed',
    {
      load: FIRST,
      places: [
        {
          part: DRIVE,
          from: { is: 'given', text: '24.6', unit: 'ft' },
          to: { is: 'given', text: '40', unit: 'ft' },
        },
      ],
      how: 'by-eye',
    },
    { at: at('10:30') },
  ),
]

const drawingsOf = (entries: Parameters<typeof modelWith>[0]): Drawing[] =>
  pageOf(modelWith(entries)).blocks.filter((block): block is Drawing => block.is === 'drawing')
const withText = (drawings: readonly Drawing[], text: string): Drawing => {
  const found = drawings.find(({ marks }) => marks.some((mark) => mark.is === 'text' && mark.text === text))
  if (!found) throw new Error(`no drawing says ${text}`)
  return found
}

describe('the pour on one sheet', () => {
  test('[record] marks the ticket’s limit at the minute at which it runs out', () => {
    const drawing = withText(drawingsOf(POUR), 'limit 90 min')
    const texts = drawing.marks.flatMap((mark) => (mark.is === 'text' ? [mark] : []))
    const hours = texts.filter(({ text }) => /^\d\d:\d\d$/.test(text))
    const minuteOf = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))
    const [first, last] = [hours[0]!, hours.at(-1)!]
    const perMinute = (last.at[0] - first.at[0]) / (minuteOf(last.text) - minuteOf(first.text))
    // 08:21 and 90 minutes.
    const x = first.at[0] + (minuteOf('09:51') - minuteOf(first.text)) * perMinute
    const label = texts.find(({ text }) => text === 'limit 90 min')!
    expect(Math.abs(label.at[0] - x)).toBeLessThanOrEqual(8)
  })

  test('[record] says times, minutes against the limit, and water in words, and marks what was late', () => {
    const lines = linesWith(POUR)
    expect(lines).toContain('Batched 08:21; arrived 09:38; discharge started 09:45, ended 10:19; left 10:25.')
    expect(lines).toContain(
      'From batching: 84 min to the start, 118 min to the end of discharge. Limit: outside: 118 min, limit 90 min. Water on site: 8 gal in all.',
    )
    expect(lines).toContain('water: 8 gal †')
    expect(lines).toContain('Slump 4 in, cone')
  })

  test('[record] measures an edge’s gap between the lanes', () => {
    const lines = linesWith([
      ...POUR,
      stamp('discharge.started', '11:56', SECOND),
      stamp('discharge.ended', '12:10', SECOND),
    ])
    expect(lines).toContain('97 min between')
  })

  test('[record] of a load without any time draws none, and says that nothing was logged', () => {
    expect(linesWith([opened])).toContain('No time of any load was logged.')
  })

  test('[record] its clock’s places are in order, whatever the span and the offset', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2e12 }),
        fc.integer({ min: 0, max: 1.3e8 }),
        fc.constantFrom('-05:00', '+00:00', '+05:45'),
        (from, more, offset) => {
          const axis = axisOf({ from, to: from + more }, { left: 270, right: 1900 }, offset)
          const [a, b] = [axis.x(from)!, axis.x(from + more)!]
          expect(a).toBeGreaterThanOrEqual(270)
          expect(b).toBeLessThanOrEqual(1900)
          expect(a).toBeLessThanOrEqual(b)
          expect(axis.ticks.length).toBeLessThan(20)
        },
      ),
      { seed: 6 },
    )
  })
})

describe('the sketch', () => {
  test('[record] lays a load along its part from and to where somebody said, and says what nobody did', () => {
    const drawing = withText(drawingsOf(POUR), '24.6 ft')
    const texts = drawing.marks.flatMap((mark) => (mark.is === 'text' ? [mark.text] : []))
    expect(texts).toEqual(expect.arrayContaining(['Drive', '0 ft', '24.6 ft', '40 ft', 'Load 1', 'Patio']))
    expect(texts).toContain('no load is said to have gone here')
  })
})

test('[record] no drawing leaves the sheet, and no word its drawing, whatever was logged', () => {
  fc.assert(
    fc.property(anyJob, (job) => {
      for (const block of pageOf(recordOf(entriesOf(job))).blocks) {
        if (block.is !== 'drawing') continue
        expect(block.width).toBe(SHEET_WIDE)
        expect(block.height).toBeLessThanOrEqual(2350)
        for (const mark of block.marks) {
          if (mark.is !== 'text') continue
          expect(mark.at[0]).toBeGreaterThanOrEqual(0)
          expect(mark.at[0]).toBeLessThanOrEqual(SHEET_WIDE + 60)
          expect(mark.at[1]).toBeGreaterThanOrEqual(0)
          expect(mark.at[1] + 20).toBeLessThanOrEqual(block.height + 12)
          expect(mark.room).toBeGreaterThan(0)
        }
      }
    }),
    { seed: 6, numRuns: 150 },
  )
})

test('[record] words that stand side by side in a drawing never lie over each other', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat(500), fc.nat(100))), (words) => {
      const rows: [number, number][][] = []
      for (const [from, wide] of words) freeRow(rows, from, from + wide)
      for (const row of rows)
        for (const [i, [a, b]] of row.entries())
          for (const [c, d] of row.slice(i + 1)) expect(b <= c || d <= a).toBe(true)
    }),
    { seed: 6 },
  )
})
