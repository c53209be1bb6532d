import * as z from 'zod/mini'
import { uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** What came after the finish: forms stripped, edge backfilled, sealer put on. */
export const slabServed = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    what: z.enum(['forms-stripped', 'backfilled', 'sealed']),
    product: z.optional(words(80)),
    parts: z.optional(z.array(uuid).check(z.minLength(1), z.maxLength(20))),
    where: z.optional(words(120)),
  }),
)
