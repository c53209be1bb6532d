import * as z from 'zod/mini'
import { fieldFacts, notTaken, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

const slump = z.union([quantity('in', 'mm'), notTaken])
fieldFacts.add(slump, { label: 'slump', unit: 'in', step: '1/4', plain: ['0', '10'] })

/**
 * A cone reading, or what somebody judged by eye: never the same thing. How it was found is said of a reading alone: of a
 * slump that was not taken there is nothing to say.
 */
export const slumpMeasured = kind(
  { thread: 'job', maker: 'person' },
  z
    .strictObject({ load: uuid, slump, how: z.optional(z.enum(['cone', 'by-eye'])) })
    .check(z.refine(({ slump, how }) => (slump.is === 'given') === (how !== undefined), { path: ['how'] })),
)
