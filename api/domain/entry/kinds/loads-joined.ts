import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** Two phones logged one truck as two loads: from now on they are one. Withdrawing this parts them again. */
export const loadsJoined = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ loads: z.array(uuid).check(z.minLength(2), z.maxLength(10)) }),
)
