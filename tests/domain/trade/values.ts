import type { Result } from '../../../api/domain/result.ts'
import { type Measure, measure } from '../../../api/domain/trade/measure.ts'
import type { TradeUnit } from '../../../api/domain/trade/unit-table.ts'
import { type Ratio, readNumber, showNumber } from '../../../api/domain/units.ts'

/** `m('4 1/4', 'in')`. */
export const m = <U extends TradeUnit>(text: string, unit: U): Measure<U> => {
  const number = readNumber(text)
  if (!number.ok) throw new Error(text)
  return measure(number.value, unit)
}

export const told = <T>(result: Result<T>): T => {
  if (!result.ok)
    throw new Error(`${result.problem.code} ${result.problem.at} ${JSON.stringify(result.problem.evidence)}`)
  return result.value
}

/** To so many digits, as people read it. */
export const shown = (r: Ratio | undefined, digits = 3): string | undefined => r && showNumber(r, digits)
