import * as z from 'zod/mini'
import { none, spoken, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { someone } from '../taking.ts'

/**
 * The ticket was signed, by whom, and with which exception written on it: none is a fact. A line that releases the supplier
 * inside the curb is a second signature, and leaving it blank is a fact too.
 */
export const ticketSigned = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    who: someone,
    exception: z.union([z.strictObject({ is: z.literal('given'), words: spoken(500) }), none]),
    curb: z.optional(z.enum(['signed', 'left-blank', 'no-such-line'])),
  }),
)
