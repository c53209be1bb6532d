import { ok, type Result } from '../result.ts'
import { type Input, offRange, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit } from './finding.ts'
import { exactly, type Temperature, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'

/** Whose hot-weather limit: ACI 301-20 and 305.1-14 (the default), older specifications, or none stated. */
export type HotRule = '301-20' | 'older'
export const HOT_RULE: HotRule = '301-20'

/** The most at discharge. Source: ACI 301-20, ACI 305.1-14 (95 °F, 35 °C), secondary; older specifications 90 °F. C94 has no cap. */
export const HOT_LIMITS: Readonly<Record<HotRule, Limit<'degF'>>> = {
  '301-20': { most: exactly('95', 'degF'), source: '301-20' },
  older: { most: exactly('90', 'degF'), source: 'hot-older' },
}

/**
 * A concrete temperature at discharge beside the most of the chosen rule. Units: any → finding in °F.
 * Fails: `out-of-range`; a temperature that nobody took stays not recorded.
 * Source: ACI 301-20 and ACI 305.1-14; older specifications.
 */
export const hotFinding = (of: {
  readonly concrete: Input<Temperature>
  readonly rule?: HotRule
}): Result<Finding<'degF'>, TradeProblem> => {
  const off = of.concrete && offRange('/concrete', of.concrete, RANGES.concreteTemperature)
  const value = of.concrete && toUnit(of.concrete, 'degF')
  return off ?? ok(compareTo('concrete temperature', value, HOT_LIMITS[of.rule ?? HOT_RULE]))
}
