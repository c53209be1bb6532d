import * as batch from '../../../../api/domain/trade/batch.ts'
import { exactly } from '../../../../api/domain/trade/measure.ts'
import * as order from '../../../../api/domain/trade/order.ts'
import * as volume from '../../../../api/domain/trade/volume.ts'
import { type Binding, given, NotOfThisShape, pick, type Reader } from '../bind.ts'

/** A step so small that no rounding shows, where a case states none. */
const NO_STEP = exactly('0.05', 'yd3')
const num = (m: { n: bigint; d: bigint }) => Number(m.n) / Number(m.d)
const orderOf = (a: Reader, net: ReturnType<Reader['of']>, waste = a.of('waste', 'share')) => {
  const step = a.of('order_increment', 'volume')
  return given(order.orderVolume({ net: net as never, waste, step: step ?? NO_STEP }), (o) => ({
    net: o.net,
    order: step ? o.order : o.withAllowance,
    with_waste: o.withAllowance,
  }))
}

export const ORDER: readonly Binding[] = [
  {
    function: 'order.orderVolume',
    needs: ['net', 'waste'],
    may: ['order_increment'],
    gives: (a) => orderOf(a, a.of('net', 'volume')),
  },
  {
    function: 'volume.slabOfArea, order.orderVolume',
    needs: ['area', 'thickness', 'waste'],
    may: ['order_increment'],
    gives: (a) => {
      const net = volume.slabOfArea({ area: a.of('area', 'area'), thickness: a.of('thickness', 'length') })
      return net.ok ? orderOf(a, net.value) : { refused: net.problem }
    },
  },
  {
    function: 'volume.slab, order.orderVolume',
    needs: ['length', 'width', 'thickness', 'waste'],
    may: ['order_increment'],
    gives: (a) => {
      const net = volume.slab({
        length: a.of('length', 'length'),
        width: a.of('width', 'length'),
        thickness: a.of('thickness', 'length'),
      })
      return net.ok ? orderOf(a, net.value) : { refused: net.problem }
    },
  },
  {
    function: 'order.allowanceBy, order.orderVolume',
    needs: ['net', 'waste_rule'],
    gives: (a) => {
      // The one rule of the sources that depends on the volume: 10 % up to 200 yd³.
      if (!/200 ?yd3/.test(a.text('waste_rule') ?? '')) throw new NotOfThisShape()
      const net = a.of('net', 'volume')
      const rule = order.allowanceBy('army', net)
      return rule.ok ? orderOf(a, net, rule.value.most) : { refused: rule.problem }
    },
  },
  {
    function: 'order.allowanceBy',
    needs: ['rule'],
    when: (a) => /allowance|waste|extra/i.test(a.text('rule') ?? ''),
    gives: (a) => {
      const rule = pick<order.AllowanceRule>(`${a.text('rule')} ${a.source}`, [
        [/CIP ?8|ACI allowance/, 'cip-8'],
        [/Beall/, 'beall'],
        [/Estimator/, 'estimator'],
      ])
      return given(order.allowanceBy(rule, undefined), ({ least, most }) => ({
        _min: least,
        _max: most,
        min_pct: num(least),
        max_pct: num(most),
        '': most,
      }))
    },
  },
  {
    function: 'order.shortageBy',
    needs: ['slab', 'thickness_error', 'order'],
    gives: (a) =>
      given(
        order.shortageBy({
          thickness: a.of('slab', 'length'),
          error: a.of('thickness_error', 'length'),
          order: a.of('order', 'volume'),
        }),
        ({ share, volume: short }) => ({ shortage_pct: num(share), shortage_yd3: num(short) }),
      ),
  },
  {
    function: 'order.hardenedVolume',
    needs: ['fresh'],
    gives: (a) =>
      given(order.hardenedVolume({ fresh: a.of('fresh', 'volume') }), (v) => ({
        hardened: v,
        hardened_about: v,
      })),
  },
  {
    function: 'order.trucks',
    needs: ['order', 'load', 'rate'],
    gives: (a) =>
      given(
        order.trucks({
          order: a.of('order', 'volume'),
          load: a.of('load', 'volume'),
          rate: a.of('rate', 'placing-rate'),
        }),
        (t) => ({ trucks: t.count, spacing: t.spacing }),
      ),
  },
  {
    function: 'batch.batchMasses',
    needs: ['order', 'sacks_per', 'ca', 'fa', 'water_gal_per_sack'],
    gives: (a) => masses(a, a.of('sacks_per', 'volume')),
  },
  {
    function: 'batch.bagsFor',
    needs: ['bag'],
    gives: (a) =>
      given(
        batch.bagsFor({ bag: a.of('bag', 'mass'), volume: exactly('1', 'yd3') }),
        ({ perBag, perYard }) => ({
          ft3_per_bag: num(perBag),
          bags_per_yd3: num(perYard),
        }),
      ),
  },
]

const masses = (a: Reader, sacks: ReturnType<Reader['of']>) => {
  if (!sacks) throw new NotOfThisShape()
  return given(
    batch.batchMasses({
      volume: a.of('order', 'volume'),
      sacksPerYard: { n: sacks.n, d: sacks.d, unit: 'one' },
      coarse: a.of('ca', 'density'),
      fine: a.of('fa', 'density'),
      gallonsPerSack: galOf(a.of('water_gal_per_sack', 'number')),
    }),
    (m) => ({ sacks_exact: m.sacks, sacks_order: m.wholeSacks, ca: m.coarse, fa: m.fine, water: m.water }),
  )
}
const galOf = (m: ReturnType<Reader['of']>) => m && { n: m.n, d: m.d, unit: 'gal' as const }
