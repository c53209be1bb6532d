import { expect, test } from 'vitest'
import { balanceToOrder, trucks } from '../../../api/domain/trade/order.ts'
import { layOutPanels } from '../../../api/domain/trade/panels.ts'
import * as v from '../../../api/domain/trade/volume.ts'
import { m, shown, told } from './values.ts'

/** Worked by hand from the shape’s formula, in feet; the source is geometry. */
const SHAPES: readonly (readonly [string, ReturnType<typeof v.slab>, string])[] = [
  // 40 · 20 · 5/12 / 27, as in the demo job
  [
    'slab 40 × 20 ft × 5 in',
    v.slab({ length: m('40', 'ft'), width: m('20', 'ft'), thickness: m('5', 'in') }),
    '12.346',
  ],
  // (4 + 8)/2 · 30 · 1/3 / 27
  [
    'walk that flares from 4 to 8 ft',
    v.taperedSlab({
      length: m('30', 'ft'),
      width: m('4', 'ft'),
      endWidth: m('8', 'ft'),
      thickness: m('4', 'in'),
      endThickness: m('4', 'in'),
    }),
    '2.222',
  ],
  // 20 · 10 · (4 + 8)/2/12 / 27
  [
    'slab that tapers from 4 to 8 in',
    v.taperedSlab({
      length: m('20', 'ft'),
      width: m('10', 'ft'),
      endWidth: m('10', 'ft'),
      thickness: m('4', 'in'),
      endThickness: m('8', 'in'),
    }),
    '3.704',
  ],
  // 1/6 · 30 · (4·1/3 + 4·6·1/2 + 8·2/3) / 27: both at once is more than the product of the means
  [
    'walk that flares and tapers',
    v.taperedSlab({
      length: m('30', 'ft'),
      width: m('4', 'ft'),
      endWidth: m('8', 'ft'),
      thickness: m('4', 'in'),
      endThickness: m('8', 'in'),
    }),
    '3.457',
  ],
  // ½ · 12 · 10 · ½ / 27
  ['wedge', v.wedge({ length: m('12', 'ft'), width: m('10', 'ft'), thickness: m('6', 'in') }), '1.111'],
  // π/4 · (20² − 12²) · 1/3 / 27
  [
    'ring around a pool',
    v.ring({ outerDiameter: m('20', 'ft'), innerDiameter: m('12', 'ft'), thickness: m('4', 'in') }),
    '2.482',
  ],
  // 60 · 8/12 · (16 + 8)/2/12 / 27
  [
    'thickened edge with a sloping side',
    v.thickenedEdge({
      length: m('60', 'ft'),
      depthBelowSlab: m('8', 'in'),
      widthAtSlab: m('16', 'in'),
      widthAtFoot: m('8', 'in'),
    }),
    '1.481',
  ],
  // 4 · 7/12 · (11/12 · 3 + 4 · 3) / 27
  [
    'three steps of 7 × 11 in, 4 ft wide, the top one a 4 ft landing',
    v.steps({
      count: m('3', 'one'),
      rise: m('7', 'in'),
      tread: m('11', 'in'),
      width: m('4', 'ft'),
      topTread: m('4', 'ft'),
    }),
    '1.275',
  ],
]

for (const [name, volume, yards] of SHAPES)
  test(`[trade] ${name} is ${yards} yd³`, () => expect(shown(told(volume))).toBe(yards))

test('[trade] metric sides give the same yards to the last digit', () => {
  const metric = v.slab({ length: m('12.192', 'm'), width: m('609.6', 'cm'), thickness: m('127', 'mm') })
  expect(told(metric)).toEqual(told(SHAPES[0]![1]))
})

test('[trade] steps are what their boxes stacked up are', () => {
  const [rise, tread, width] = [m('7', 'in'), m('11', 'in'), m('4', 'ft')]
  const boxes = [1, 2, 3, 4].map((n) =>
    told(v.slab({ length: tread, width, thickness: { ...rise, n: rise.n * BigInt(n) } })),
  )
  expect(v.sumVolumes(boxes)).toEqual(told(v.steps({ count: m('4', 'one'), rise, tread, width })))
})

test('[trade] an uneven base is told by its depths', () => {
  const base = told(
    v.unevenBase({
      area: m('800', 'ft2'),
      depths: [m('5', 'in'), m('5 1/2', 'in'), m('4 3/4', 'in'), m('12.7', 'cm')],
    }),
  )
  expect([
    shown(base.meanDepth, 4),
    shown(base.leastDepth, 4),
    shown(base.mostDepth, 4),
    base.depths,
  ]).toEqual(['5.0625', '4.75', '5.5', 4])
  expect(shown(base.volume)).toBe('12.5')
})

test('[trade] trucks: full ones first, the rest in the last, as far apart as a load takes to place', () => {
  const t = told(trucks({ order: m('18.5', 'yd3'), load: m('8', 'yd3'), rate: m('16', 'yd3/h') }))
  expect([t.count, t.loads.map((l) => shown(l)), shown(t.spacing), shown(t.placing)]).toEqual([
    3,
    ['8', '8', '2.5'],
    '30',
    '69.375',
  ])
})

test('[trade] the balance to order covers the most that may be needed, and is zero where enough is on its way', () => {
  const left = [{ area: m('224', 'ft2'), depth: m('4', 'in'), error: m('1/4', 'in') }]
  const balance = told(balanceToOrder({ left, onTheWay: m('0.5', 'yd3'), step: m('0.5', 'yd3') }))
  // 224 · 4/324 − 0.5, and with a quarter inch either way
  expect([shown(balance.least), shown(balance.needed), shown(balance.most), shown(balance.order)]).toEqual([
    '2.093',
    '2.265',
    '2.438',
    '2.5',
  ])
  const covered = told(balanceToOrder({ left, onTheWay: m('4', 'yd3'), step: m('0.5', 'yd3') }))
  expect([shown(covered.needed), shown(covered.order)]).toEqual(['0', '0'])
})

test('[trade] a slab around a corner is jointed from the corner', () => {
  const at = (x: string, y: string) => ({ x: m(x, 'ft'), y: m(y, 'ft') })
  const corners = [at('0', '0'), at('30', '0'), at('30', '12'), at('12', '12'), at('12', '24'), at('0', '24')]
  const layout = told(layOutPanels({ corners, mostSpacing: m('12', 'ft') }))
  expect(layout.jointsAtX.map((x) => shown(x))).toEqual(['12', '21'])
  expect(layout.jointsAtY.map((y) => shown(y))).toEqual(['12'])
  expect(layout.panels.map(({ width, height }) => `${shown(width)}×${shown(height)}`)).toEqual([
    '12×12',
    '12×12',
    '9×12',
    '9×12',
  ])
  expect([layout.reentrantCorners, layout.slivers]).toEqual([1, 0])
})

test('[trade] a notch makes slivers, and they are counted', () => {
  const at = (x: string, y: string) => ({ x: m(x, 'ft'), y: m(y, 'ft') })
  const corners = [at('0', '0'), at('20', '0'), at('20', '10'), at('2', '10'), at('2', '8'), at('0', '8')]
  const layout = told(layOutPanels({ corners, mostSpacing: m('10', 'ft') }))
  expect(layout.slivers).toBeGreaterThan(0)
})
