import type { Binding } from '../bind.ts'
import { CHARGES } from './charges.ts'
import { FRESH } from './fresh.ts'
import { LOG } from './log.ts'
import { MIX } from './mix.ts'
import { ORDER } from './order.ts'
import { SLAB } from './slab.ts'
import { TIME } from './time.ts'
import { UNIT_CASES } from './units.ts'
import { VOLUME } from './volume.ts'
import { WEATHER } from './weather.ts'

/** Every function that a case can be bound to. */
export const BINDINGS: readonly Binding[] = [
  ...VOLUME,
  ...ORDER,
  ...TIME,
  ...FRESH,
  ...WEATHER,
  ...MIX,
  ...SLAB,
  ...CHARGES,
  ...LOG,
  ...UNIT_CASES,
]
