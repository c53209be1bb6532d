import * as z from 'zod/mini'
import { localTime, quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Breaks of one load's cylinders at one age, as the laboratory reported them. */
export const strengthReported = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    days: z.string().check(z.regex(/^[1-9]\d{0,2}$/)),
    breaks: z.array(quantity('psi', 'MPa')).check(z.minLength(1), z.maxLength(12)),
    laboratory: z.optional(words(80)),
    reportedAt: z.optional(localTime),
  }),
)
