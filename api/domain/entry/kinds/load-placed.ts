import * as z from 'zod/mini'
import { quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Along a part's length from its named end; whole part where both are absent. */
const place = z.strictObject({
  part: uuid,
  from: z.optional(quantity('ft', 'm')),
  to: z.optional(quantity('ft', 'm')),
  yards: z.optional(quantity('yd3', 'm3')),
})

/** Where the load went. */
export const loadPlaced = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    places: z.array(place).check(z.minLength(1), z.maxLength(20)),
    how: z.enum(['measured', 'by-eye']),
    said: z.optional(words(200)),
  }),
)
