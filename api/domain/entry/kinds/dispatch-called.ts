import * as z from 'zod/mini'
import { spoken } from '../fields.ts'
import { kind } from '../kind.ts'

/** A call with the plant: who called, and what was said as the caller tells it. */
export const dispatchCalled = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ from: z.enum(['us', 'plant']), said: spoken(1000) }),
)
