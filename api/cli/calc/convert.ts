import { fail } from '../../domain/result.ts'
import { type Measure, toUnit } from '../../domain/trade/measure.ts'
import { readMeasure } from '../../domain/trade/read-measure.ts'
import { type Dimension, dimensionOfUnit, isTradeUnit, UNIT_TABLE } from '../../domain/trade/unit-table.ts'
import { answer, calculation, group, value } from './calculation.ts'
import { words } from './field.ts'

const DIMENSIONS = (Object.keys(UNIT_TABLE) as Dimension[]).filter((one) => one !== 'number')

export const CONVERT = group('Units', [
  calculation(
    'convert',
    'a measure in another unit, exactly; the unit by its code',
    {
      measure: words('a number with its unit', '4-1/4in, 12ft 6in, 87degF'),
      to: words(
        'the other unit’s code',
        DIMENSIONS.map((one) => Object.keys(UNIT_TABLE[one]).join(' ')).join('; '),
      ),
    },
    'measure=4-1/4in to=mm',
    (g) => {
      const into = g.to ?? ''
      if (!isTradeUnit(into))
        return fail('not-known', '/to', { given: into, known: 'see: screedbook calc convert --help' })
      const read = readMeasure(g.measure ?? '', dimensionOfUnit(into))
      if (!read.ok) return fail(read.problem.code, '/measure', read.problem.evidence)
      const m = toUnit(read.value as Measure, into)
      return answer({ ok: true, value: m }, ['sp-811'], (it) => [
        ...value('exactly', `${it.n}/${it.d}`),
        ...value('is', it, 12),
      ])
    },
  ),
])
