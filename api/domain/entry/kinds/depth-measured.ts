import * as z from 'zod/mini'
import { fieldFacts, quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

const depth = quantity('in', 'mm')
fieldFacts.add(depth, { label: 'depth', unit: 'in', step: '1/4', plain: ['2', '14'] })

/** Depth from the forms' top to the base at one point. */
export const depthMeasured = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ depth, part: z.optional(uuid), where: z.optional(words(80)) }),
)
