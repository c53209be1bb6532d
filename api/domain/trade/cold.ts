import { fail, ok, type Result } from '../result.ts'
import { compare, minus, plus } from '../units.ts'
import { ask, type Input, offRange, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit } from './finding.ts'
import {
  compareMeasures,
  type Duration,
  exactly,
  type Length,
  type Measure,
  measure,
  type Temperature,
  toUnit,
} from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** Least section by its row in the tables. A thickness on a shared line is in the thicker row: our choice. */
export type SectionRow = '<12' | '12-36' | '36-72' | '>72'

/** What each row asks for, in °F. Source: ACI 306R-88 through Beall Figs 3-37, 3-38; thick rows from memory. */
const ROWS_306R_88 = {
  '<12': { mixed: ['60', '65', '70'], place: '55', drop: '50', source: '306r-88' },
  '12-36': { mixed: ['55', '60', '65'], place: '50', drop: '40', source: '306r-88' },
  '36-72': { mixed: ['50', '55', '60'], place: '45', drop: '30', source: '306r-88-thick' },
  '>72': { mixed: ['45', '50', '55'], place: '40', drop: '20', source: '306r-88-thick' },
} as const

/**
 * The row of a least section. Units: any length → row. Fails: `missing`, `out-of-range`.
 * Source: ACI 306R-88 table as reprinted; which row takes 12 and 36 in is our choice.
 */
export const sectionRow = (section: Input<Length>): Result<SectionRow, TradeProblem> => {
  const off = offRange('/section', section, RANGES.section)
  if (off || !section) return off ?? fail('missing', '/section')
  const inches = toUnit(section, 'in')
  const below = (text: string) => compare(inches, exactly(text, 'in')) < 0
  if (below('12')) return ok('<12')
  if (below('36')) return ok('12-36')
  return ok(compare(inches, exactly('72', 'in')) <= 0 ? '36-72' : '>72')
}

export type ColdRow = {
  readonly row: SectionRow
  /** As mixed, for the air that it travels in; undefined where no air temperature was given. */
  readonly leastMixed: Measure<'degF'> | undefined
  readonly leastPlaced: Measure<'degF'>
  /** Placed not warmer than this: 20 °F above the least. */
  readonly mostPlaced: Measure<'degF'>
  readonly mostDropFirstDay: Measure<'diff-degF'>
  readonly source: SourceId
}

/** Source: web copy of the note to ACI 306R’s table. */
const ABOVE_LEAST = exactly('20', 'diff-degF')

/**
 * Temperatures of concrete in cold weather by section and air: as mixed, as placed and kept, and the most drop in the
 * first 24 h after protection. Units: a row, any temperature → °F. Fails: `out-of-range`.
 * Source: ACI 306R-88 through Beall Figs 3-37 and 3-38; rows above 36 in from memory. Air of just 30 or 0 °F is in the
 * middle column.
 */
export const coldWeatherRow = (row: SectionRow, air?: Input<Temperature>): Result<ColdRow, TradeProblem> => {
  const off = air && offRange('/air', air, RANGES.airTemperature)
  if (off) return off
  const { mixed, place, drop, source } = ROWS_306R_88[row]
  const leastPlaced = exactly(place, 'degF')
  return ok({
    row,
    leastMixed: air && exactly(mixed[columnOf(air)], 'degF'),
    leastPlaced,
    mostPlaced: measure(plus(leastPlaced, ABOVE_LEAST), 'degF'),
    mostDropFirstDay: exactly(drop, 'diff-degF'),
    source,
  })
}

const columnOf = (air: Temperature): 0 | 1 | 2 => {
  if (compareMeasures(air, exactly('30', 'degF')) > 0) return 0
  return compareMeasures(air, exactly('0', 'degF')) >= 0 ? 1 : 2
}

/** Whose limits of placing temperature. `ufgs-03301a` gives both ends; C94 the least alone, from memory. */
export type PlacingRule = '306r-88' | 'c94' | 'ufgs-03301a'
export const PLACING_RULE: PlacingRule = '306r-88'

const C94_LEAST = { '<12': '55', '12-36': '50', '36-72': '45', '>72': '40' } as const

/**
 * The placing temperatures that a rule gives for a section. Units: any length → °F. Fails: `missing`, `out-of-range`.
 * Source: ACI 306R-88 (least, and 20 °F above); ASTM C94 (least, from memory); UFGS 03301A (55–75 °F below 12 in,
 * 50–70 °F above; 12 in itself is in the thicker row).
 */
export const placingLimit = (of: {
  readonly section: Input<Length>
  readonly rule?: PlacingRule
}): Result<Limit<'degF'>, TradeProblem> => {
  const row = sectionRow(of.section)
  if (!row.ok) return row
  switch (of.rule ?? PLACING_RULE) {
    case 'c94':
      return ok({ least: exactly(C94_LEAST[row.value], 'degF'), source: 'c94-cold' })
    case 'ufgs-03301a': {
      const [least, most] = row.value === '<12' ? ['55', '75'] : ['50', '70']
      return ok({ least: exactly(least!, 'degF'), most: exactly(most!, 'degF'), source: 'ufgs-03301a' })
    }
    case '306r-88': {
      const cold = coldWeatherRow(row.value)
      if (!cold.ok) return cold
      const { leastPlaced, mostPlaced, source } = cold.value
      return ok({ least: leastPlaced, most: mostPlaced, source })
    }
  }
}

/**
 * A concrete temperature beside what a rule gives for its section. Units: any → finding in °F.
 * Fails: `missing` (the section), `out-of-range`. Source: as `placingLimit`.
 */
export const placingFinding = (of: {
  readonly section: Input<Length>
  readonly concrete: Input<Temperature>
  readonly rule?: PlacingRule
}): Result<Finding<'degF'>, TradeProblem> => {
  const limit = placingLimit(of)
  if (!limit.ok) return limit
  const off = of.concrete && offRange('/concrete', of.concrete, RANGES.concreteTemperature)
  return off ?? ok(compareTo('concrete temperature', of.concrete && toUnit(of.concrete, 'degF'), limit.value))
}

/** The air and whatever the concrete touches must be above it. Source: UFGS 03301A. */
export const UFGS_AMBIENT = {
  least: exactly('32', 'degF'),
  open: 'over-least',
  source: 'ufgs-03301a',
} as const
/** How fast heated concrete may cool, and from when on it is heated. Source: UFGS 03300N. */
export const UFGS_COOLING = {
  mostDropAnHour: exactly('5', 'diff-degF'),
  mostDropADay: exactly('50', 'diff-degF'),
  heatBelow: exactly('40', 'degF'),
  keepAt: exactly('50', 'degF'),
  source: 'ufgs-03300n',
} as const
/** Strength before one freeze, and before repeated ones while wet. Sources: PCA ch. 14; ACI 306R-88 and 308R-01 as quoted (ASCC disputes it). */
export const FREEZE_STRENGTH = {
  once: { least: exactly('500', 'psi'), source: 'freeze-once' },
  cycles: { least: exactly('3500', 'psi'), source: 'freeze-cycles' },
} as const

/**
 * How far a concrete cooled, beside the most drop for its section in the first 24 h. Units: any → finding.
 * Fails: `missing`, `out-of-range`. Source: ACI 306R-88 through Beall Fig. 3-38.
 */
export const coolingFinding = (of: {
  readonly section: Input<Length>
  readonly from: Input<Temperature>
  readonly until: Input<Temperature>
}): Result<Finding<'diff-degF'>, TradeProblem> => {
  const row = sectionRow(of.section)
  if (!row.ok) return row
  const read = readAll({
    from: ask(of.from, RANGES.concreteTemperature),
    until: ask(of.until, RANGES.concreteTemperature),
  })
  if (!read.ok) return read
  const cold = coldWeatherRow(row.value)
  if (!cold.ok) return cold
  const drop = minus(toUnit(read.value.from, 'degF'), toUnit(read.value.until, 'degF'))
  const limit = { most: cold.value.mostDropFirstDay, source: cold.value.source }
  return ok(compareTo('drop', measure(drop, 'diff-degF'), limit))
}

/** What a slab bears and meets while young. */
export type Service = 'not-loaded-not-exposed' | 'not-loaded-exposed' | 'partly-loaded-exposed'
/** Which row of the table where nobody chose: flatwork outdoors that nothing drives on yet. Source: our choice. */
export const SERVICE: Service = 'not-loaded-exposed'
/** Type III cement, an accelerator, or more cement count as fast. */
export type CementSpeed = 'type-I-II' | 'type-III'
/** The column where nobody chose: the longer days. Source: our choice. */
export const CEMENT_SPEED: CementSpeed = 'type-I-II'
export type Protection = {
  readonly againstFreezing: Duration
  readonly forStrength: Duration
  readonly source: SourceId
}

/** Days, against freezing and for strength that bears its service. Source: ACI 306R-88 through Beall Fig. 3-38. */
const PROTECTION = {
  'not-loaded-not-exposed': { 'type-I-II': ['2', '2'], 'type-III': ['1', '1'] },
  'not-loaded-exposed': { 'type-I-II': ['3', '3'], 'type-III': ['2', '2'] },
  'partly-loaded-exposed': { 'type-I-II': ['3', '6'], 'type-III': ['2', '4'] },
} as const

/**
 * Days of protection by service and cement. Units: none → days. Fails: never; the types admit known rows alone.
 * Source: ACI 306R-88 through Beall Fig. 3-38 (306R-16 is laid out otherwise, from memory).
 */
export const protectionDays = (service: Service, cement: CementSpeed): Protection => {
  const [freeze, strength] = PROTECTION[service][cement]
  return { againstFreezing: exactly(freeze, 'd'), forStrength: exactly(strength, 'd'), source: '306r-88' }
}
