import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { someone } from '../taking.ts'

/** The load was taken, by whom. */
export const loadAccepted = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid, who: z.optional(someone) }),
)
