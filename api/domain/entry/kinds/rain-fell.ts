import * as z from 'zod/mini'
import { words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Rain on the slab began, ended or is falling. */
export const rainFell = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ phase: z.enum(['start', 'end', 'under-way']), said: z.optional(words(120)) }),
)
