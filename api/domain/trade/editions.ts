import {
  CEMENT_SPEED,
  type CementSpeed,
  PLACING_RULE,
  type PlacingRule,
  SERVICE,
  type Service,
} from './cold.ts'
import { COLD_DEFINITION, type ColdDefinition } from './cold-weather.ts'
import { DISCHARGE_RULE, type DischargeRule } from './discharge.ts'
import { BLEED_KIND, type BleedKind, EVAPORATION_FORM, type EvaporationForm } from './evaporation.ts'
import { EXPOSURE_TABLE, type ExposureTable } from './exposure.ts'
import { THUMB_RULE, type ThumbRule } from './gallon-rule.ts'
import { HOT_RULE, type HotRule } from './hot.ts'
import { VAPOUR_CURVE, type VapourCurve } from './humidity.ts'
import { SPACING_CAP, type SpacingCap } from './joints.ts'
import { SAW_RULE, type SawRule } from './saw-hours.ts'
import { TOLERANCE_RULE, type ToleranceRule } from './tolerance.ts'

/** One choice between sources that differ: what can be chosen, and what holds where nobody chose. */
export type Choice<T extends string> = { readonly of: readonly T[]; readonly usual: T }
const choice = <T extends string>(usual: T, ...others: readonly T[]): Choice<T> => ({
  of: [usual, ...others],
  usual,
})

/**
 * Everything that two editions or sources tell otherwise, in one place. Both exist; the choice is a parameter of the
 * function, and each result names the one that was used. Source: each choice’s own file.
 */
export const CHOICES = {
  discharge: choice<DischargeRule>(DISCHARGE_RULE, 'C94-13', 'C94-98'),
  tolerances: choice<ToleranceRule>(TOLERANCE_RULE, 'stated-only'),
  placing: choice<PlacingRule>(PLACING_RULE, 'c94', 'ufgs-03301a'),
  hot: choice<HotRule>(HOT_RULE, 'older'),
  coldWeather: choice<ColdDefinition>(COLD_DEFINITION, '306R-88'),
  exposure: choice<ExposureTable>(EXPOSURE_TABLE, 'PCA EB001 Table 11-3'),
  evaporation: choice<EvaporationForm>(EVAPORATION_FORM, 'uno-si-rounded', 'uno-si-exact', 'menzel'),
  threshold: choice<BleedKind>(BLEED_KIND, 'silica-fume', 'overlay'),
  vapour: choice<VapourCurve>(VAPOUR_CURVE, 'nws'),
  spacingCap: choice<SpacingCap>(SPACING_CAP, 'trade', 'csa', 'none'),
  saw: choice<SawRule>(SAW_RULE, 'csa-a23.1-94'),
  service: choice<Service>(SERVICE, 'not-loaded-not-exposed', 'partly-loaded-exposed'),
  cement: choice<CementSpeed>(CEMENT_SPEED, 'type-III'),
  addedWater: choice<ThumbRule>(THUMB_RULE, 'gallon-with-air', 'four-litres'),
} as const

export type ChoiceName = keyof typeof CHOICES

/** What somebody chose; the rest is the usual. */
export type Editions = { readonly [K in ChoiceName]: (typeof CHOICES)[K]['usual'] }

/**
 * The whole of what holds, from what was chosen. Units: none. Fails: never; the types admit known choices alone.
 * Source: `CHOICES`.
 */
export const editionsFrom = (chosen: Partial<Editions>): Editions => {
  const usual = Object.fromEntries(Object.entries(CHOICES).map(([name, one]) => [name, one.usual]))
  return { ...(usual as Editions), ...chosen }
}
