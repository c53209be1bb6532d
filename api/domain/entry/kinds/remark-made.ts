import * as z from 'zod/mini'
import { spoken, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** Words that fit nowhere else, with their language. Whose words they are can be said in them. */
export const remarkMade = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({ remark: spoken(2000), load: z.optional(uuid) }),
)
