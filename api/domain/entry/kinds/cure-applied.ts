import * as z from 'zod/mini'
import { quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Curing compound or water put on, with the product, how much, and on which area. */
export const cureApplied = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    product: z.optional(words(80)),
    amount: z.optional(quantity('gal', 'L')),
    area: z.optional(quantity('ft2', 'm2')),
    parts: z.optional(z.array(uuid).check(z.minLength(1), z.maxLength(20))),
    where: z.optional(words(120)),
  }),
)
