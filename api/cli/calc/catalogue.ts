import type { Calculation } from './calculation.ts'
import { CONVERT } from './convert.ts'
import { LOADS } from './loads.ts'
import { MIXES } from './mixes.ts'
import { MONEY } from './money.ts'
import { SLABS } from './slabs.ts'
import { TESTS } from './tests.ts'
import { VOLUMES } from './volumes.ts'
import { WEATHER } from './weather.ts'

/** All that `screedbook calc` can work out. */
export const CATALOGUE: readonly Calculation[] = [
  ...VOLUMES,
  ...LOADS,
  ...TESTS,
  ...WEATHER,
  ...MIXES,
  ...SLABS,
  ...MONEY,
  ...CONVERT,
]
