import * as z from 'zod/mini'

/** Query of the public check: what a slip says. */
export const slipQuery = z.strictObject({ origin: z.string(), size: z.string(), root: z.string() })

/** Proofs alone: nothing of what was logged. */
export const slipAnswer = z.strictObject({
  /** The log's newest checkpoint, the whole note. */
  checkpoint: z.string(),
  /** The log's verifier key. */
  logKey: z.string(),
  /** A consistency file (SPEC L34) from the slip's tree to the checkpoint's; null where the slip is not of this log. */
  consistency: z.nullable(z.string()),
})

/** A job's slip as of now: its text (SPEC L35) and its eight words. */
export const jobSlipAnswer = z.strictObject({ slip: z.string(), words: z.array(z.string()) })
