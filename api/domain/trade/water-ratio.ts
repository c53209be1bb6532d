import { over, type Ratio, ratio, times } from '../units.ts'
import { exactly, measure } from './measure.ts'

/**
 * What a gallon of water weighs. The trade prints four figures; 8.34 is the default, and every result names its own.
 * Source: common practice, no source (8.345 lb/gal is water at 4 °C, 8.33 at 16 °C).
 */
export const WATER_WEIGHTS = {
  trade: exactly('8.34', 'lb/gal'),
  course: exactly('8.33', 'lb/gal'),
  third: measure(ratio(25n, 3n), 'lb/gal'),
  'four-degrees': exactly('8.345', 'lb/gal'),
} as const
export const WATER_WEIGHT = WATER_WEIGHTS.trade

/**
 * w/cm of concrete that has so many gallons in each yard. Units: gal/yd³, lb/yd³, lb/gal → plain number.
 * Fails: never, of numbers that were read; the cementitious content is above zero. Source: definition of w/cm.
 */
export const ratioFromGallons = (
  gallonsPerYard: Ratio,
  cementitiousLbPerYard: Ratio,
  weightLbPerGallon: Ratio,
): Ratio => over(times(gallonsPerYard, weightLbPerGallon), cementitiousLbPerYard)
