import * as z from 'zod/mini'
import { fieldFacts, notTaken, quantity, uuid } from '../fields.ts'
import { kind, widened } from '../kind.ts'
import { taking } from '../taking.ts'

const slump = z.union([quantity('in', 'mm'), notTaken])
fieldFacts.add(slump, { label: 'slump', unit: 'in', step: '1/4', plain: ['0', '10'] })

const how = z.optional(z.enum(['cone', 'by-eye']))
/** How it was found is said of a reading alone: of a slump that was not taken there is nothing to say. */
const howOfReading = (body: { slump: { is: string }; how?: unknown }): boolean =>
  (body.slump.is === 'given') === (body.how !== undefined)

const first = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({ load: uuid, slump, how }).check(z.refine(howOfReading, { path: ['how'] })),
)

/** A cone reading, or what somebody judged by eye: never the same thing. */
export const slumpMeasured = widened(
  first,
  2,
  z
    .strictObject({ load: uuid, slump, how, taking: z.optional(taking) })
    .check(z.refine(howOfReading, { path: ['how'] })),
)
