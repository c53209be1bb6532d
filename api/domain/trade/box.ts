import { type Ratio, ratio, times } from '../units.ts'

/** Source: 3 ft × 3 ft × 3 ft. */
export const FEET3_PER_YARD3 = ratio(27n)

/**
 * The volume of three sides at right angles. Units: feet → ft³. Fails: never. Source: length × width × thickness.
 */
export const boxFeet3 = (length: Ratio, width: Ratio, thickness: Ratio): Ratio =>
  times(length, times(width, thickness))
