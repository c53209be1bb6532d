import { type Measure, measure, toUnit } from '../../../../api/domain/trade/measure.ts'
import { dimensionOfUnit, isTradeUnit, type TradeUnit } from '../../../../api/domain/trade/unit-table.ts'
import { type Binding, NotOfThisShape } from '../bind.ts'

const NAMES: Readonly<Record<string, TradeUnit>> = {
  'US gal': 'gal',
  F: 'degF',
  C: 'degC',
  kn: 'kt',
  knot: 'kt',
  'lb/ft2/h': 'lb/ft2/h',
  min: 'min',
  pcf: 'lb/ft3',
  ton: 'ton-short',
}
const unitOf = (text: string | undefined): TradeUnit => {
  const known = text === undefined ? undefined : (NAMES[text] ?? text)
  if (known === undefined || !isTradeUnit(known)) throw new NotOfThisShape()
  return known
}
const values = (all: readonly (readonly [string, Measure])[]) =>
  Object.fromEntries(all.map(([key, m]) => [key, Number(m.n) / Number(m.d)]))

export const UNIT_CASES: readonly Binding[] = [
  {
    function: 'measure.toUnit',
    needs: ['value', 'from', 'to'],
    gives: (a) => {
      const [from, into] = [unitOf(a.text('from')), unitOf(a.text('to'))]
      const number = a.of('value', 'number')
      if (!number || dimensionOfUnit(from) !== dimensionOfUnit(into)) throw new NotOfThisShape()
      const m = toUnit(measure(number, from) as Measure, into)
      return { value: Number(m.n) / Number(m.d) }
    },
  },
  {
    function: 'measure.toUnit',
    needs: ['temp'],
    gives: (a) => ({ temp: a.of('temp', 'temperature') }),
  },
  {
    function: 'measure.toUnit',
    needs: ['volume'],
    gives: (a) => ({ volume: a.of('volume', 'volume') }),
  },
  {
    function: 'measure.toUnit',
    needs: ['density'],
    gives: (a) => {
      const d = a.of('density', 'density')
      if (!d) throw new NotOfThisShape()
      return values([
        ['lb_yd3', toUnit(d, 'lb/yd3')],
        ['kg_m3', toUnit(d, 'kg/m3')],
        ['lb_ft3', toUnit(d, 'lb/ft3')],
      ])
    },
  },
  {
    function: 'measure.toUnit',
    needs: [''],
    gives: (a) => ({ '': a.raw('') }),
  },
]
