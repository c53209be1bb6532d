import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The chute ran again. */
export const dischargeResumed = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid }),
)
