import * as z from 'zod/mini'
import { spoken, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { someone } from '../taking.ts'

/** The load was sent back, for what, by whom, and in which words. */
export const loadRejected = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    reason: z.enum(['late', 'slump', 'air', 'temperature', 'wrong-mix', 'set', 'other']),
    who: z.optional(someone),
    words: z.optional(spoken(1000)),
  }),
)
