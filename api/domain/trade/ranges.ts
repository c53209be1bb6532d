import type { Range } from './asked.ts'
import { exactly } from './measure.ts'
import type { TradeUnit } from './unit-table.ts'

const range = <U extends TradeUnit>(least: string, most: string, unit: U): Range<U> => ({
  least: exactly(least, unit),
  most: exactly(most, unit),
})

/**
 * In which range a field can be meant. Source: our choice, wide enough for flatwork and for the published tables, narrow
 * enough that feet given as inches, °C as °F, or a slipped point are met. Where a formula itself ends, it says so.
 */
export const RANGES = {
  /** Of a slab, a walk, a run of footing or of edge. */
  side: range('0.01', '10000', 'ft'),
  /** Of a slab or footing; 12 ft covers a wall. */
  thickness: range('0.25', '144', 'in'),
  /** A taper may run out to nothing. */
  thicknessOrNone: range('0', '144', 'in'),
  diameter: range('0.5', '12000', 'in'),
  height: range('0.01', '1000', 'ft'),
  rise: range('1', '24', 'in'),
  tread: range('3', '120', 'in'),
  area: range('0.01', '5000000', 'ft2'),
  areaOrNone: range('0', '5000000', 'ft2'),
  volume: range('0', '100000', 'yd3'),
  someVolume: range('0.001', '100000', 'yd3'),
  load: range('0.25', '16', 'yd3'),
  waste: range('0', '50', 'pct'),
  orderStep: range('0.05', '5', 'yd3'),
  placingRate: range('0.5', '500', 'yd3/h'),
  depthError: range('0', '6', 'in'),

  minutes: range('0', '10080', 'min'),
  limitMinutes: range('1', '1440', 'min'),
  revolutions: range('0', '5000', 'one'),
  hours: range('0', '100000', 'h'),
  dayHours: range('0', '24', 'h'),
  days: range('1', '365', 'd'),

  waterVolume: range('0', '5000', 'gal'),
  waterMass: range('0', '50000', 'lb'),
  waterWeight: range('8', '8.5', 'lb/gal'),
  waterDensity: range('50', '70', 'lb/ft3'),
  thumbWater: range('0', '10', 'gal/yd3'),
  thumbContent: range('-100', '100', 'lb/yd3'),
  slumpChange: range('-10', '10', 'in'),
  perConcrete: range('0', '120', 'gal/yd3'),
  content: range('50', '2000', 'lb/yd3'),
  waterContent: range('0', '1000', 'lb/yd3'),
  aggregateContent: range('0', '4000', 'lb/yd3'),
  dryRodded: range('20', '200', 'lb/ft3'),
  bag: range('20', '100', 'lb'),
  batchMass: range('0', '1000000', 'lb'),
  someBatch: range('10', '1000000', 'lb'),
  someMass: range('0.001', '1000000', 'lb'),
  ratio: range('0.1', '2', 'one'),
  moisture: range('0', '30', 'pct'),
  share: range('0', '100', 'pct'),
  sacks: range('0.1', '10000', 'one'),
  specificGravity: range('1', '5', 'one'),

  slump: range('0', '12', 'in'),
  air: range('0', '20', 'pct'),
  airChange: range('-20', '20', 'pct'),
  airTolerance: range('0.1', '5', 'pct'),
  sample: range('0', '20', 'ft3'),
  measureVolume: range('0.1', '4', 'ft3'),
  scaleMass: range('0.01', '1000', 'lb'),
  concreteDensity: range('60', '250', 'lb/ft3'),
  strength: range('500', '20000', 'psi'),
  breakStrength: range('1', '30000', 'psi'),

  concreteTemperature: range('-40', '200', 'degF'),
  airTemperature: range('-80', '140', 'degF'),
  /** Over water: below it, ice would have another curve. */
  vapourTemperature: range('-40', '140', 'degF'),
  /** The rate is that of a wet surface: water that is not frozen. */
  wetSurface: range('32', '140', 'degF'),
  windowAir: range('32', '130', 'degF'),
  humidity: range('0', '100', 'pct'),
  someHumidity: range('1', '100', 'pct'),
  wind: range('0', '100', 'mph'),
  windHeight: range('0.1', '100', 'm'),
  curingTemperature: range('-40', '100', 'degC'),
  referenceKelvin: range('273', '313.15', 'one'),
  kelvinOffset: range('273', '273.15', 'one'),
  maturity: range('100', '100000', 'degC.h'),
  settingTemperature: range('30', '100', 'degF'),
  activation: range('1000', '10000', 'one'),

  aggregate: range('0.25', '6', 'in'),
  section: range('0.5', '1200', 'in'),
  spacing: range('0.5', '100', 'ft'),
  panel: range('0.1', '1000', 'ft'),
  crack: range('0', '2', 'in'),
  dust: range('0', '100000', 'ug/m3'),

  money: range('0', '5000000', 'one'),
  billingUnit: range('1', '480', 'min'),
  minutesPerYard: range('0', '120', 'min/yd3'),
  taxRate: range('0', '30', 'pct'),
  distance: range('0', '1000', 'mi'),
} as const satisfies Record<string, Range>
