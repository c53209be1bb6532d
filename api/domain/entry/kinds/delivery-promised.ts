import * as z from 'zod/mini'
import { localTime, quantity } from '../fields.ts'
import { kind } from '../kind.ts'

/** When the supplier said the first truck would come, and how far apart. A changed promise is a further entry. */
export const deliveryPromised = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ at: localTime, spacing: z.optional(quantity('min')) }),
)
