import fc from 'fast-check'
import { expect, test } from 'vitest'
import { toLocalTime } from '../../../api/domain/time.ts'
import { minutesFrom } from '../../../api/domain/trade/clock.ts'
import { evaporationRate } from '../../../api/domain/trade/evaporation.ts'
import { nurseSaul } from '../../../api/domain/trade/maturity.ts'
import {
  compareMeasures,
  type Measure,
  measure,
  roundTo,
  roundUpTo,
  toEstimate,
  toUnit,
} from '../../../api/domain/trade/measure.ts'
import { balanceToOrder, orderVolume } from '../../../api/domain/trade/order.ts'
import { layOutPanels } from '../../../api/domain/trade/panels.ts'
import { type Dimension, type TradeUnit, UNIT_TABLE, unitsOf } from '../../../api/domain/trade/unit-table.ts'
import { coverage, ring, slab, sumVolumes, taperedSlab } from '../../../api/domain/trade/volume.ts'
import { ratioAfter, ratiosByPart } from '../../../api/domain/trade/water.ts'
import { compare, minus, plus, type Ratio, ratio, sum, times } from '../../../api/domain/units.ts'

const SEED = { seed: 71340 }
const value = <T>(result: { ok: true; value: T } | { ok: false; problem: { code: string } }): T => {
  if (!result.ok) throw new Error(result.problem.code)
  return result.value
}
const exact = (least: number, most: number) =>
  fc.integer({ min: least * 1_000, max: most * 1_000 }).map((n) => ratio(BigInt(n), 1_000n))
const inUnit = <U extends TradeUnit>(unit: U, least: number, most: number) =>
  exact(least, most).map((r) => measure(r, unit))
const same = (a: Ratio, b: Ratio) => expect(compare(a, b)).toBe(0)

for (const dimension of Object.keys(UNIT_TABLE) as Dimension[])
  test(`[trade] any ${dimension} comes back from any unit just as it was`, () => {
    const units = unitsOf(dimension)
    fc.assert(
      fc.property(
        exact(-5_000, 5_000),
        fc.constantFrom(...units),
        fc.constantFrom(...units),
        (number, from, into) => {
          const there = toUnit(measure(number, from) as Measure, into)
          same(toUnit(there as Measure, from), number)
        },
      ),
      SEED,
    )
  })

test('[trade] an estimate comes back from another unit to within its last digits', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (estimate) => {
      const back = toEstimate(toEstimate({ estimate, unit: 'lb/ft2/h' as const }, 'kg/m2/h'), 'lb/ft2/h')
      expect(Math.abs(back.estimate - estimate)).toBeLessThanOrEqual(estimate * 1e-14)
    }),
    SEED,
  )
})

test('[trade] volume is additive: a slab cut anywhere is the sum of its parts', () => {
  fc.assert(
    fc.property(exact(1, 400), exact(1, 400), exact(1, 60), exact(1, 24), (a, b, width, thickness) => {
      const part = (length: Ratio) =>
        value(
          slab({
            length: measure(length, 'ft'),
            width: measure(width, 'ft'),
            thickness: measure(thickness, 'in'),
          }),
        )
      same(sumVolumes([part(a), part(b)]), part(plus(a, b)))
    }),
    SEED,
  )
})

test('[trade] a taper without a taper is a slab; cut across, its parts make the whole', () => {
  fc.assert(
    fc.property(
      exact(1, 100),
      exact(1, 40),
      exact(1, 40),
      exact(1, 12),
      exact(1, 12),
      (l, w0, w1, t0, t1) => {
        const tapered = (length: Ratio, w: [Ratio, Ratio], t: [Ratio, Ratio]) =>
          value(
            taperedSlab({
              length: measure(length, 'ft'),
              width: measure(w[0], 'ft'),
              endWidth: measure(w[1], 'ft'),
              thickness: measure(t[0], 'in'),
              endThickness: measure(t[1], 'in'),
            }),
          )
        const half = (a: Ratio, b: Ratio) => times(plus(a, b), ratio(1n, 2n))
        const mid = times(l, ratio(1n, 2n))
        const [w, t] = [half(w0, w1), half(t0, t1)]
        same(
          sumVolumes([tapered(mid, [w0, w], [t0, t]), tapered(mid, [w, w1], [t, t1])]),
          tapered(l, [w0, w1], [t0, t1]),
        )
        const flat = slab({
          length: measure(l, 'ft'),
          width: measure(w0, 'ft'),
          thickness: measure(t0, 'in'),
        })
        same(tapered(l, [w0, w0], [t0, t0]), value(flat))
      },
    ),
    SEED,
  )
})

test('[trade] rings that lie in each other add up', () => {
  fc.assert(
    fc.property(exact(1, 20), exact(1, 20), exact(1, 20), (a, b, c) => {
      const [inner, middle, outer] = [a, plus(a, b), plus(a, plus(b, c))]
      const of = (o: Ratio, i: Ratio) =>
        value(
          ring({
            outerDiameter: measure(o, 'ft'),
            innerDiameter: measure(i, 'ft'),
            thickness: measure(ratio(4n), 'in'),
          }),
        )
      same(sumVolumes([of(outer, middle), of(middle, inner)]), of(outer, inner))
    }),
    SEED,
  )
})

test('[trade] a yard covers just the area whose slab is a yard', () => {
  fc.assert(
    fc.property(inUnit('in', 1, 48), (thickness) => {
      const area = value(coverage({ thickness }))
      const yard = slab({ length: measure(area, 'ft'), width: measure(ratio(1n), 'ft'), thickness })
      same(value(yard), ratio(1n))
    }),
    SEED,
  )
})

test('[trade] an order is never below what is needed, nor a step above it', () => {
  fc.assert(
    fc.property(
      inUnit('yd3', 1, 500),
      inUnit('pct', 0, 50),
      fc.constantFrom('0.25', '0.5', '1'),
      (net, waste, text) => {
        const step = measure(ratio(BigInt(Number(text) * 100), 100n), 'yd3')
        const { order, withAllowance } = value(orderVolume({ net, waste, step }))
        expect(compare(order, withAllowance)).toBeGreaterThanOrEqual(0)
        expect(compare(minus(order, withAllowance), step)).toBeLessThan(0)
      },
    ),
    SEED,
  )
})

test('[trade] as parts fill, the balance and its range only get smaller', () => {
  const part = fc.record({
    area: inUnit('ft2', 1, 500),
    depth: inUnit('in', 1, 12),
    error: inUnit('in', 0, 2),
  })
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (left) => {
      const of = (parts: typeof left) =>
        value(
          balanceToOrder({
            left: parts,
            onTheWay: measure(ratio(0n), 'yd3'),
            step: measure(ratio(1n, 4n), 'yd3'),
          }),
        )
      const [all, fewer] = [of(left), of(left.slice(1))]
      const range = (b: typeof all) => minus(b.most, b.least)
      expect(compare(range(fewer), range(all))).toBeLessThanOrEqual(0)
      expect(compare(fewer.needed, all.needed)).toBeLessThanOrEqual(0)
      expect(compare(all.least, all.needed) <= 0 && compare(all.needed, all.most) <= 0).toBe(true)
    }),
    SEED,
  )
})

test('[trade] more wind never lowers evaporation where the air is drier than the surface', () => {
  const temperature = (least: number, most: number) => inUnit('degF', least, most)
  fc.assert(
    fc.property(
      temperature(40, 100),
      temperature(40, 100),
      inUnit('pct', 0, 100),
      inUnit('mph', 0, 50),
      inUnit('mph', 0, 50),
      fc.constantFrom('uno-us', 'uno-si-rounded', 'uno-si-exact', 'menzel' as const),
      (concrete, air, humidity, wind, more, form) => {
        const at = (speed: Measure<'mph'>) =>
          value(evaporationRate({ concrete, air, humidity, wind: speed, form })).rate
        const [less, windier] = [at(wind), at(measure(plus(wind, more), 'mph'))]
        // Where water settles, more wind settles more of it: the sign holds.
        if (less.estimate >= 0) expect(windier.estimate).toBeGreaterThanOrEqual(less.estimate)
        else expect(windier.estimate).toBeLessThanOrEqual(less.estimate)
      },
    ),
    SEED,
  )
})

test('[trade] a later end never shortens a time, whatever the clocks did that night', () => {
  const zones = fc.constantFrom('America/Chicago', 'America/Phoenix', 'Europe/Madrid', 'Australia/Lord_Howe')
  const instant = fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2027, 0, 1) })
  fc.assert(
    fc.property(instant, fc.nat(86_400_000), fc.nat(86_400_000), zones, (start, first, further, zone) => {
      const from = toLocalTime(start, zone)
      const [early, late] = [first, first + further].map((ms) =>
        value(minutesFrom(from, toLocalTime(start + ms, zone))),
      )
      expect(compare(late!, early!)).toBeGreaterThanOrEqual(0)
    }),
    SEED,
  )
})

test('[trade] w/cm rises with each gallon', () => {
  fc.assert(
    fc.property(
      inUnit('lb/yd3', 300, 900),
      inUnit('lb/yd3', 150, 400),
      inUnit('gal/yd3', 0, 20),
      inUnit('gal/yd3', 0.001, 20),
      (cementitious, water, some, more) => {
        const after = (added: Measure<'gal/yd3'>) => value(ratioAfter({ cementitious, water, added }))
        expect(compare(after(measure(plus(some, more), 'gal/yd3')), after(some))).toBe(1)
      },
    ),
    SEED,
  )
})

test('[trade] no water and no concrete is lost between the parts of a load', () => {
  const addition = fc.record({ gallons: exact(0, 20), share: exact(0.1, 1) })
  fc.assert(
    fc.property(
      exact(2, 11),
      exact(100, 400),
      fc.array(addition, { maxLength: 5 }),
      (load, batched, more) => {
        let inDrum = load
        const additions = more.map(({ gallons, share }) => {
          inDrum = times(inDrum, share)
          return { water: measure(gallons, 'gal'), inDrum: measure(inDrum, 'yd3') }
        })
        if (compare(inDrum, ratio(1n, 1_000n)) < 0) return
        const parts = value(
          ratiosByPart({
            load: measure(load, 'yd3'),
            batchedWater: measure(batched, 'gal'),
            cementitious: measure(ratio(580n), 'lb/yd3'),
            additions,
          }),
        )
        same(sum(parts.map(({ placed }) => placed)), load)
        same(
          sum(parts.map(({ placed, water }) => times(placed, water))),
          plus(batched, sum(more.map(({ gallons }) => gallons))),
        )
      },
    ),
    SEED,
  )
})

test('[trade] a warmer hour never makes concrete less mature', () => {
  fc.assert(
    fc.property(inUnit('degC', -40, 90), inUnit('degC', 0, 10), (temperature, warmer) => {
      const at = (t: Measure<'degC'>) =>
        value(nurseSaul({ intervals: [{ duration: measure(ratio(1n), 'h'), temperature: t }] })).maturity
      expect(
        compareMeasures(at(measure(plus(temperature, warmer), 'degC')), at(temperature)),
      ).toBeGreaterThanOrEqual(0)
    }),
    SEED,
  )
})

test('[trade] rounding to a step stays within half of it, and up never goes down', () => {
  fc.assert(
    fc.property(inUnit('in', -20, 20), fc.constantFrom(ratio(1n, 4n), ratio(1n, 8n), ratio(1n)), (m, by) => {
      const step = measure(by, 'in')
      const off = minus(roundTo(m, step), m)
      expect(compare(times(off.n < 0n ? times(off, ratio(-1n)) : off, ratio(2n)), by)).toBeLessThanOrEqual(0)
      expect(compare(roundUpTo(m, step), m)).toBeGreaterThanOrEqual(0)
    }),
    SEED,
  )
})

test('[trade] the panels of an L cover it once, each no longer than was asked, whichever way round it was walked', () => {
  fc.assert(
    fc.property(
      exact(2, 40),
      exact(2, 40),
      exact(2, 40),
      exact(2, 40),
      inUnit('ft', 3, 15),
      fc.boolean(),
      (a, b, c, d, mostSpacing, turned) => {
        const at = (x: Ratio, y: Ratio) => ({ x: measure(x, 'ft'), y: measure(y, 'ft') })
        const [w, h, none] = [plus(a, b), plus(c, d), ratio(0n)]
        const corners = [at(none, none), at(w, none), at(w, c), at(a, c), at(a, h), at(none, h)]
        const layout = value(layOutPanels({ corners: turned ? corners.toReversed() : corners, mostSpacing }))
        const area = sum(layout.panels.map((p) => times(p.width, p.height)))
        same(area, plus(times(w, c), times(a, d)))
        expect(layout.reentrantCorners).toBe(1)
        expect(layout.jointsAtX.some((x) => compare(x, a) === 0)).toBe(true)
        for (const { width, height } of layout.panels) {
          expect(compare(width, mostSpacing)).toBeLessThanOrEqual(0)
          expect(compare(height, mostSpacing)).toBeLessThanOrEqual(0)
        }
      },
    ),
    SEED,
  )
})
