import * as z from 'zod/mini'
import { localTime, none, notTaken, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'
import { taking } from '../taking.ts'

const number = z.strictObject({ is: z.literal('given'), text: z.string().check(z.regex(/^[1-9]\d?$/)) })

/** A set of cylinders of one load: how many, of which size, when done. */
export const cylindersMade = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    number: z.union([number, none, notTaken]),
    size: z.optional(z.enum(['4x8', '6x12'])),
    label: z.optional(words(60)),
    doneAt: z.optional(localTime),
    taking: z.optional(taking),
  }),
)
