import * as z from 'zod/mini'
import { fieldFacts, notTaken, signedQuantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { taking } from '../taking.ts'

const temperature = z.union([signedQuantity('degF', 'degC'), notTaken])
fieldFacts.add(temperature, { label: 'temperature', unit: 'degF', step: '1', plain: ['20', '110'] })

/** Of the concrete, of the air, or of the slab's surface: never just "the temperature". */
export const temperatureMeasured = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    of: z.enum(['concrete', 'air', 'surface']),
    temperature,
    load: z.optional(uuid),
    part: z.optional(uuid),
    taking: z.optional(taking),
  }),
)
