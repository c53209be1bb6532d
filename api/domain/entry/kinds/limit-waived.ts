import * as z from 'zod/mini'
import { spoken, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { someone } from '../taking.ts'

/** Somebody who may said that the load may be used past its limit. Without this entry nobody is taken to have. */
export const limitWaived = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid, who: someone, words: z.optional(spoken(500)) }),
)
