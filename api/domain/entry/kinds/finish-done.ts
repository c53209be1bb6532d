import * as z from 'zod/mini'
import { uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

export const FINISH_STEPS = [
  'strike-off',
  'float',
  'bleed-water-gone',
  'edging',
  'jointing',
  'broom',
] as const

/** A step of finishing began, ended or is under way, and where. The phase is absent where nobody said. */
export const finishDone = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    step: z.enum(FINISH_STEPS),
    phase: z.optional(z.enum(['start', 'end', 'under-way'])),
    parts: z.optional(z.array(uuid).check(z.minLength(1), z.maxLength(20))),
    where: z.optional(words(120)),
  }),
)
