import * as z from 'zod/mini'
import { fieldFacts, notTaken, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { taking } from '../taking.ts'

const air = z.union([quantity('pct'), notTaken])
fieldFacts.add(air, { label: 'air', unit: 'pct', step: '0.1', plain: ['1', '12'] })

/** Air content as the meter gave it, by which method; a correction for the stone is said apart. */
export const airMeasured = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    air,
    method: z.optional(z.enum(['pressure', 'volumetric', 'gravimetric'])),
    aggregateCorrection: z.optional(quantity('pct')),
    taking: z.optional(taking),
  }),
)
