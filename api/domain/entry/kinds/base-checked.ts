import * as z from 'zod/mini'
import { spoken, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** Looked at before the pour; it can't be looked at afterwards. */
export const baseChecked = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    what: z.enum(['base', 'level', 'isolation', 'forms', 'mesh', 'bars']),
    found: z.enum(['in-order', 'not-in-order', 'see-remark']),
    part: z.optional(uuid),
    remark: z.optional(spoken(500)),
  }),
)
