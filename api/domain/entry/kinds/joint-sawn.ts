import * as z from 'zod/mini'
import { fieldFacts, quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

const depth = quantity('in', 'mm')
fieldFacts.add(depth, { label: 'sawDepth', unit: 'in', step: '1/4', plain: ['1/2', '4'] })

/** Saw cuts: begun or ended, how deep, how far apart. */
export const jointSawn = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    phase: z.enum(['start', 'end']),
    depth: z.optional(depth),
    spacing: z.optional(quantity('ft', 'm')),
    parts: z.optional(z.array(uuid).check(z.minLength(1), z.maxLength(20))),
    where: z.optional(words(120)),
  }),
)
