import { ok, type Result } from '../result.ts'
import { ask, type Input, readAll, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, type Limit } from './finding.ts'
import { exactly, type Length, type Measure, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'

/** What a reinforced member meets. Source: ACI 224R Table 4.1. */
export type CrackExposure = 'dry-air' | 'humid' | 'deicers' | 'seawater' | 'water-retaining'

/** A width as printed, in inches and in the rounded millimetres beside them. */
export type CrackGuide = Limit<'in'> & { readonly most: Measure<'in'>; readonly mm: Measure<'mm'> }
const guide = (inches: string, mm: string): CrackGuide => ({
  most: exactly(inches, 'in'),
  mm: exactly(mm, 'mm'),
  source: 'aci-224r',
})

/**
 * Widths that designers of reinforced concrete guide themselves by. Some cracks will be wider; it is no acceptance limit
 * and says nothing of plain slabs. Source: ACI 224R Table 4.1, reproduced in a design text.
 */
export const CRACK_GUIDE: Readonly<Record<CrackExposure, CrackGuide>> = {
  'dry-air': guide('0.016', '0.41'),
  humid: guide('0.012', '0.3'),
  deicers: guide('0.007', '0.18'),
  seawater: guide('0.006', '0.15'),
  'water-retaining': guide('0.004', '0.1'),
}

/**
 * A measured width beside that guide. Units: any length → inches. Fails: `missing`, `out-of-range`.
 * Source: ACI 224R Table 4.1: a guide to design of reinforced concrete.
 */
export const crackFinding = (of: {
  readonly width: Input<Length>
  readonly exposure: CrackExposure
}): Result<Finding<'in'>, TradeProblem> => {
  const read = readAll({ width: ask(of.width, RANGES.crack) })
  return read.ok
    ? ok(compareTo('crack width', toUnit(read.value.width, 'in'), CRACK_GUIDE[of.exposure]))
    : read
}
