import * as c from '../../../../api/domain/trade/charges.ts'
import { exactly, measure, type Plain } from '../../../../api/domain/trade/measure.ts'
import { type Binding, given, NotOfThisShape, type Reader } from '../bind.ts'

const numberOf = (x: { n: bigint; d: bigint }) => Number(x.n) / Number(x.d)
const load = (a: Reader) => a.of('', 'volume')
/** A key such as `extra_per_h` ends in a unit that is not its own. */
const amount = (m: ReturnType<Reader['of']>): Plain | undefined => m && measure(m, 'one')
const unloading = (a: Reader, free: c.FreeTime, rate: c.TimeRate) =>
  given(c.unloadingCharge({ load: load(a), onSite: a.of('on_site', 'time'), free, rate }), (u) => ({
    unloading_charge: numberOf(u.charge),
    free: u.free,
  }))
const perYard = (a: Reader): c.FreeTime => {
  const each = a.of('free', 'time-per-concrete')
  if (!each) throw new NotOfThisShape()
  return { is: 'per-yard', each }
}
const money = (a: Reader, name: string): Plain => {
  const m = a.raw(name) as ReturnType<Reader['of']>
  const found = amount(m)
  if (!found) throw new NotOfThisShape()
  return found
}
const terms = c.SHORT_LOAD_TERMS

export const CHARGES: readonly Binding[] = [
  {
    function: 'charges.unloadingCharge',
    needs: ['', 'on_site', 'free', 'extra_per'],
    gives: (a) => {
      // By its key, the rate is for a minute or for an hour.
      const rate = a.raw('extra_per') as { unit: string; n: bigint; d: bigint }
      const each =
        rate.unit === 'h' ? exactly('60', 'min') : rate.unit === 'min' ? exactly('1', 'min') : undefined
      if (!each) throw new NotOfThisShape()
      return unloading(a, perYard(a), { each, charge: measure(rate, 'one'), part: 'pro-rated' })
    },
  },
  {
    // A load and its minutes alone: the terms of supplier C, who bills by started block.
    function: 'charges.unloadingCharge',
    needs: ['', 'on_site'],
    gives: (a) =>
      unloading(
        a,
        { is: 'by-size', smallUpTo: terms.smallUpTo, each: terms.freePerYard, flatAbove: terms.freeAbove },
        { each: terms.block, charge: terms.blockCharge, part: 'started-unit' },
      ),
  },
  {
    function: 'charges.SHORT_LOAD_TERMS',
    needs: ['supplier'],
    when: (a) => a.text('supplier') === 'C',
    gives: () => ({
      small_load_max: terms.smallUpTo,
      small_load_max_yd3: numberOf(terms.smallUpTo),
      free_min_per_yd3: numberOf(terms.freePerYard),
      large_load_free_min: numberOf(terms.freeAbove),
      block_min: numberOf(terms.block),
      block_charge: numberOf(terms.blockCharge),
      max_on_site_h: numberOf(terms.mostOnSite),
    }),
  },
  {
    function: 'charges.loadCharge',
    needs: ['', 'price_per', 'min_load', 'short_load_per_missing'],
    gives: (a) =>
      given(
        c.loadCharge({
          load: load(a),
          pricePerYard: money(a, 'price_per'),
          least: a.of('min_load', 'volume'),
          fee: { is: 'per-missing-yard', fee: money(a, 'short_load_per_missing') },
        }),
        (l) => ({ concrete: l.concrete, short_load: l.shortLoad, total: l.total }),
      ),
  },
  {
    function: 'charges.loadCharge, charges.taxOn, charges.deliveryCharge',
    needs: ['', 'price_per', 'tax', 'distance', 'free', 'per'],
    gives: (a) => {
      const none = exactly('0', 'yd3')
      const concrete = c.loadCharge({
        load: load(a),
        pricePerYard: money(a, 'price_per'),
        least: none,
        fee: { is: 'flat', fee: exactly('0', 'one') },
      })
      if (!concrete.ok) return { refused: concrete.problem }
      const tax = c.taxOn({ taxable: concrete.value.concrete, rate: a.of('tax', 'share') })
      const delivery = c.deliveryCharge({
        distance: a.of('distance', 'length'),
        free: a.of('free', 'length'),
        perMile: money(a, 'per'),
      })
      if (!tax.ok || !delivery.ok) throw new NotOfThisShape()
      const withTax = c.sumAmounts([concrete.value.concrete, tax.value])
      return {
        concrete: concrete.value.concrete,
        tax: tax.value,
        with_tax: withTax,
        delivery: delivery.value,
        total: c.sumAmounts([withTax, delivery.value]),
      }
    },
  },
]
