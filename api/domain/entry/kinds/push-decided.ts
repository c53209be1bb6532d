import * as z from 'zod/mini'
import { hash, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** What a withdrawn device sent, set aside until now, is admitted to the log or declined, by hash. */
export const pushDecided = kind(
  { thread: 'company', maker: 'person', since: 2 },
  z.strictObject({
    device: uuid,
    entries: z.array(hash).check(z.minLength(1), z.maxLength(100)),
    verdict: z.enum(['admitted', 'declined']),
  }),
)
