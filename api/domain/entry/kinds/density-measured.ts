import * as z from 'zod/mini'
import { fieldFacts, notTaken, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { taking } from '../taking.ts'

const density = z.union([quantity('lb/ft3', 'kg/m3'), notTaken])
fieldFacts.add(density, { label: 'density', unit: 'lb/ft3', step: '0.1', plain: ['100', '160'] })

/** Fresh density, from which yield is worked out. */
export const densityMeasured = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid, density, taking: z.optional(taking) }),
)
