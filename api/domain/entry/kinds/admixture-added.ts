import * as z from 'zod/mini'
import { none, notSure, quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'
import { someone } from '../taking.ts'

/** Put into the drum on site. */
export const admixtureAdded = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    product: words(80),
    amount: z.union([quantity('fl-oz', 'gal', 'mL', 'L', 'lb', 'kg'), none, notSure]),
    asked: z.optional(someone),
    added: z.optional(someone),
  }),
)
