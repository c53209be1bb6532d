import { beforeAll, describe, expect, test } from 'vitest'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { tablesOf } from '../../api/domain/record/tables/tables.ts'
import { buildDemo, modelOf } from '../demo/demo-house.ts'
import { entry, FIRST, SECOND, ticket } from './job/pour.ts'
import { at, gal, inches, modelWith, opened, planned, readCsv, rowsOf, type TableRow } from './record-kit.ts'

/** The demonstration's job: every kind of table has rows. Source of the figures: tests/cases/tern-court.json. */
let demo: RecordModel
beforeAll(async () => {
  const job = await modelOf(await buildDemo())
  const frame = modelWith([])
  demo = {
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

const only = (rows: readonly TableRow[], load: string): TableRow => rows.find((row) => row.load === load)!
const number = (text: string | undefined): number => {
  expect(text).toMatch(/^-?\d+(?:\.\d+)?$|^(?:\d+ )?\d+\/\d+$/)
  return text!.split(' ').reduce((sum, part) => {
    const [top, bottom = '1'] = part.split('/')
    return sum + Number(top) / Number(bottom)
  }, 0)
}
/** Whole minutes between printed minutes. */
const minutes = (from: string | undefined, to: string | undefined): number => {
  const minute = (text: string | undefined) =>
    Math.floor(Date.parse(text!.replace(/T(\d\d:\d\d)([+-])/, 'T$1:00$2')) / 60_000)
  return minute(to) - minute(from)
}

describe('an expert with the tables alone', () => {
  test('[record] works out the same minutes', () => {
    for (const load of rowsOf(demo, 'loads')) {
      expect(minutes(load.batched_at, load.arrived_at)).toBe(number(load.batch_to_arrival_min))
      expect(minutes(load.batched_at, load.discharge_started_at)).toBe(number(load.batch_to_start_min))
      expect(minutes(load.batched_at, load.discharge_ended_at)).toBe(number(load.batch_to_end_min))
      expect(minutes(load.arrived_at, load.left_at)).toBe(number(load.on_site_min))
    }
    expect(rowsOf(demo, 'loads').map((load) => load.batch_to_end_min)).toEqual(['63', '118', '43'])
    const loads = rowsOf(demo, 'loads')
    for (const gap of rowsOf(demo, 'between-loads'))
      expect(
        minutes(
          only(loads, gap.from_load!).discharge_ended_at,
          only(loads, gap.to_load!).discharge_started_at,
        ),
      ).toBe(number(gap.minutes))
  })

  test('[record] works out the same water and the same ratios of each part', () => {
    const ticketOf = only(
      rowsOf(demo, 'tickets').filter((row) => row.stands === 'stands'),
      '2',
    )
    const water = rowsOf(demo, 'water').filter((row) => row.load === '2' && row.stands === 'stands')
    const figure = only(rowsOf(demo, 'water-figures'), '2')
    const sumOf = (stage: string) =>
      water.filter((row) => row.stage === stage).reduce((sum, row) => sum + number(row.amount), 0)
    const [before, after] = [sumOf('before-discharge'), sumOf('after-discharge-began')]
    const yards = number(ticketOf.volume)
    const batched = number(ticketOf.batched_water)
    const ratio = (gallonsPerYard: number) =>
      ((gallonsPerYard * number(figure.water_lb_per_gal)) / number(ticketOf.cementitious)).toFixed(3)
    const first = (batched + before) / yards
    const inDrum = number(water.find((row) => row.in_drum !== 'not-recorded')?.in_drum)
    expect(figure.ratio_batched).toBe(ratio(batched / yards))
    expect(figure.ratio_first).toBe(ratio(first))
    expect(figure.ratio_last).toBe(ratio(first + after / inDrum))
    expect(figure.ratio_whole).toBe(ratio(first + after / yards))
    expect([figure.ratio_first, figure.ratio_last, figure.ratio_whole]).toEqual(['0.441', '0.464', '0.456'])
    expect(number(figure.may_add_gal)).toBe(number(ticketOf.may_add))
    expect(number(figure.over_gal)).toBe(before + after - number(ticketOf.may_add))
    expect(figure.verdict).toBe('outside')
  })

  test('[record] works out the same yards', () => {
    const [sums] = rowsOf(demo, 'yards')
    const perUnit: Readonly<Record<string, number>> = { ft: 1, in: 1 / 12 }
    const yards = rowsOf(demo, 'parts').map((part) => {
      const sides = ['length', 'width', 'thickness'].map(
        (side) => number(part[side]) * perUnit[part[`${side}_unit`]!]!,
      )
      return sides.reduce((product, side) => product * side, 1) / 27
    })
    const formed = yards.reduce((a, b) => a + b, 0)
    expect(formed.toFixed(2)).toBe(sums!.formed_yd3)
    const ticketed = rowsOf(demo, 'tickets')
      .filter((row) => row.stands === 'stands')
      .reduce((sum, row) => sum + number(row.volume), 0)
    expect(ticketed).toBe(number(sums!.ticketed_yd3))
    const ordered = rowsOf(demo, 'orders').filter((row) => row.kind !== 'concrete.held')
    expect(ordered.reduce((sum, row) => sum + number(row.yards), 0)).toBe(number(sums!.ordered_yd3))
    const placed = ticketed - number(sums!.left_over_yd3)
    expect(placed).toBe(number(sums!.placed_yd3))
    expect(((placed / formed - 1) * 100).toFixed(1)).toBe(sums!.placed_over_formed_pct)
  })

  test('[record] finds each comparison’s value and ends, and where it lies', () => {
    const rows = rowsOf(demo, 'comparisons')
    expect(rows.length).toBeGreaterThan(8)
    for (const { value, from, to, verdict } of rows) {
      const inside =
        (from === '' || number(value) >= number(from)) && (to === '' || number(value) <= number(to))
      expect(verdict).toBe(inside ? 'inside' : 'outside')
    }
    const eye = rows.filter((row) => row.by_eye === 'yes')
    expect(eye.map((row) => row.value)).toEqual(['2.5'])
  })
})

describe('the tables', () => {
  test('[record] have the same names and columns in every language, and as many cells in each line as in the head', () => {
    const english = tablesOf(demo)
    const spanish = tablesOf({ ...demo, language: 'es' })
    expect(spanish).toEqual(english)
    for (const { name, text } of english) {
      const [head, ...rows] = readCsv(text)
      expect(new Set(head).size, name).toBe(head!.length)
      for (const row of rows) expect(row.length, name).toBe(head!.length)
    }
  })

  test('[record] hold each entry of the job once a value, also one that no longer stands', () => {
    const wrong = ticket({ batchedAt: { is: 'given', at: at('07:50') } })
    const rows = rowsOf(modelWith([opened, wrong, ticket({}, { corrects: [wrong.hash] })]), 'tickets')
    expect(rows.map(({ entry: n, stands, batched_at }) => [n, stands, batched_at])).toEqual([
      ['2', 'corrected', '2026-04-21T07:50-05:00'],
      ['3', 'stands', '2026-04-21T07:05-05:00'],
    ])
  })

  test('[L10] tell none, not sure, not taken, not stated and not recorded apart by their codes', () => {
    const model = modelWith([
      opened,
      ticket({ driver: { is: 'not-stated' } }),
      entry('water.added', { load: FIRST, amount: { is: 'none' } }),
      entry('water.added', { load: FIRST, amount: { is: 'not-sure' } }),
      entry('air.measured', { load: FIRST, air: { is: 'not-taken' } }),
    ])
    expect(
      rowsOf(model, 'water')
        .map((row) => row.amount)
        .sort(),
    ).toEqual(['none', 'not-sure'])
    expect(rowsOf(model, 'air').map(({ air, unit, method }) => [air, unit, method])).toEqual([
      ['not-taken', '', 'not-recorded'],
    ])
    const [row] = rowsOf(model, 'tickets')
    expect([row!.driver, row!.plant]).toEqual(['not-stated', 'not-recorded'])
  })

  test('[record] give what was logged under a joined id to the one load', () => {
    const model = modelWith([
      opened,
      entry('water.added', { load: FIRST, amount: gal('5') }),
      entry('water.added', { load: SECOND, amount: gal('3') }),
      entry('loads.joined', { loads: [FIRST, SECOND] }),
    ])
    expect(new Set(rowsOf(model, 'water').map((row) => `${row.load} ${row.load_id}`)).size).toBe(1)
    expect(
      rowsOf(model, 'loads').map(({ water_gal, joined_ids }) => [water_gal, joined_ids === 'none']),
    ).toEqual([['8', false]])
  })

  test('[record] give a ratio that the ticket does not allow as not worked out, and no verdict without a limit', () => {
    const model = modelWith([
      opened,
      planned,
      ticket(),
      entry('slump.measured', { load: FIRST, slump: inches('4'), how: 'cone' }),
    ])
    expect(rowsOf(model, 'water-figures')[0]).toMatchObject({
      ratio_whole: 'not-worked-out',
      verdict: 'not-recorded',
    })
    expect(rowsOf(model, 'comparisons').map((row) => row.verdict)).toEqual(['limit-not-stated'])
  })
})
