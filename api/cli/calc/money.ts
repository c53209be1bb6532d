import type { TimeRate } from '../../domain/trade/charges.ts'
import * as charges from '../../domain/trade/charges.ts'
import { exactly } from '../../domain/trade/measure.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { answer, calculation, group, value } from './calculation.ts'
import { choice, maybe, measured, usually, words, yesNo } from './field.ts'

const money = (says: string) => measured('number', says, RANGES.money)
const load = measured('volume', 'the load', RANGES.someVolume)
const rounding = choice(['half-up', 'half-even', 'none'], 'how the sum is rounded to cents', 'half-up')
const NONE = exactly('0', 'yd3')

export const MONEY = group('Money', [
  calculation(
    'waiting',
    'what a truck’s time on site costs, by the supplier’s own terms',
    {
      load,
      'on-site': measured('time', 'by that supplier’s own start and stop', RANGES.minutes),
      free: measured('time-per-concrete', 'free, each yard', RANGES.minutesPerYard),
      'small-up-to': maybe(measured('volume', 'where larger loads have one free time', RANGES.volume)),
      'free-above': maybe(measured('time', 'that free time', RANGES.minutes)),
      charge: money('for each unit of time beyond'),
      each: usually(measured('time', 'that unit', RANGES.billingUnit), '1min'),
      part: choice(['pro-rated', 'started-unit'], 'how a part of it is billed', 'pro-rated'),
      rounding,
    },
    'load=2.5yd on-site=22min free=6min/yd charge=2.50',
    (g) => {
      const [each, small, above] = [g.free, g['small-up-to'], g['free-above']]
      if (!each || !g.each || !g.charge) return { ok: false, problem: { code: 'missing', at: '/free' } }
      if ((small === undefined) !== (above === undefined))
        return { ok: false, problem: { code: 'missing', at: small ? '/free-above' : '/small-up-to' } }
      const free: charges.FreeTime =
        small && above
          ? { is: 'by-size', smallUpTo: small, each, flatAbove: above }
          : { is: 'per-yard', each }
      const rate: TimeRate = { each: g.each, charge: g.charge, part: g.part ?? 'pro-rated' }
      return answer(
        charges.unloadingCharge({
          load: g.load,
          onSite: g['on-site'],
          free,
          rate,
          rounding: g.rounding ?? 'half-up',
        }),
        ['supplier-terms'],
        (u) => [...value('free', u.free), ...value('beyond', u.beyond), ...value('charge', u.charge, 2)],
        [`Rounded ${g.rounding ?? 'half-up'}; parts of a unit ${g.part ?? 'pro-rated'}.`],
      )
    },
  ),
  calculation(
    'load-charge',
    'a load’s concrete, and a short load’s fee',
    {
      load,
      price: money('a yard'),
      least: usually(measured('volume', 'the supplier’s least load', RANGES.volume), '0yd'),
      fee: usually(money('for a short load'), '0'),
      'fee-is': choice(['per-missing-yard', 'flat'], 'how that fee counts', 'per-missing-yard'),
      waived: yesNo('waived by the quote'),
      rounding,
    },
    'load=2.5yd price=165 least=4yd fee=40',
    (g) =>
      answer(
        charges.loadCharge({
          load: g.load,
          pricePerYard: g.price,
          least: g.least ?? NONE,
          fee: { is: g['fee-is'] ?? 'per-missing-yard', fee: g.fee ?? exactly('0', 'one') },
          waived: g.waived ?? false,
          rounding: g.rounding ?? 'half-up',
        }),
        ['supplier-terms'],
        (l) => [
          ...value('concrete', l.concrete, 2),
          ...value('short load', l.shortLoad, 2),
          ...value('together', l.total, 2),
        ],
        [`Rounded ${g.rounding ?? 'half-up'}, each sum by itself.`],
      ),
  ),
  calculation(
    'surcharge',
    'a dated surcharge of one load',
    {
      load,
      on: words('the day', '2026-04-21'),
      amount: money('the surcharge'),
      each: choice(['load', 'yard'], 'for each', 'load'),
      from: maybe(words('first day that it counts', '2025-11-15')),
      until: maybe(words('last day that it counts', '2026-04-15')),
      rounding,
    },
    'load=8yd on=2026-04-21 amount=6 each=yard until=2026-04-15',
    (g) =>
      answer(
        charges.surcharge({
          load: g.load,
          on: g.on,
          terms: {
            each: g.each ?? 'load',
            amount: g.amount ?? exactly('0', 'one'),
            ...(g.from ? { from: g.from } : {}),
            ...(g.until ? { until: g.until } : {}),
          },
          rounding: g.rounding ?? 'half-up',
        }),
        ['supplier-terms'],
        (s) => value('surcharge', s, 2),
      ),
  ),
  calculation(
    'tax',
    'tax on what is taxable; which lines are, ask an accountant',
    {
      taxable: money('the sum that is taxed'),
      rate: measured('share', 'the rate', RANGES.taxRate),
      rounding,
    },
    'taxable=3367.25 rate=6.5%',
    (g) =>
      answer(
        charges.taxOn({ taxable: g.taxable, rate: g.rate, rounding: g.rounding ?? 'half-up' }),
        ['supplier-terms'],
        (t) => value('tax', t, 2),
      ),
  ),
  calculation(
    'delivery',
    'delivery by distance',
    {
      distance: measured('length', 'from the plant', RANGES.distance),
      free: usually(measured('length', 'that cost nothing', RANGES.distance), '0mi'),
      charge: money('a mile'),
      rounding,
    },
    'distance=21mi free=10mi charge=1',
    (g) =>
      answer(
        charges.deliveryCharge({
          distance: g.distance,
          free: g.free,
          perMile: g.charge,
          rounding: g.rounding ?? 'half-up',
        }),
        ['supplier-terms'],
        (d) => value('delivery', d, 2),
      ),
  ),
])
