import * as z from 'zod/mini'

export const MAX_PULL = 500

/** One leaf of the company log: its 97 bytes in base64, and the entry's text, or null where it is withheld or lost. */
export const pulledLeaf = z.strictObject({ leaf: z.string(), entry: z.nullable(z.string()) })

/** A stretch of the log that ends at a signed checkpoint, so that it can be verified by itself (L48). */
export const pullAnswer = z.strictObject({
  from: z.int(),
  leaves: z.array(pulledLeaf),
  /** The whole note; null where the log has nothing beyond `from`. */
  checkpoint: z.nullable(z.string()),
  /** Whether there is more beyond this stretch. */
  more: z.boolean(),
  serverTime: z.int(),
})
export type PullAnswer = z.infer<typeof pullAnswer>
