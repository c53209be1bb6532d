import * as z from 'zod/mini'
import { uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Blankets, sheets or wet cloth put on or taken off. */
export const coverPlaced = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    what: z.enum(['blankets', 'plastic', 'wet-cloth', 'other']),
    change: z.enum(['on', 'off']),
    parts: z.optional(z.array(uuid).check(z.minLength(1), z.maxLength(20))),
    where: z.optional(words(120)),
  }),
)
