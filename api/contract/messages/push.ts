import * as z from 'zod/mini'

export const MAX_PUSH_ENTRIES = 200
export const MAX_PUSH_BYTES = 4 * 1024 * 1024

/** A device's entries from an index of its own log on, in order, and a head of just the size they lead to (L47). */
export const pushRequest = z.strictObject({
  protocol: z.int().check(z.gte(1)),
  epoch: z.int().check(z.gte(1), z.lte(999_999_999)),
  from: z.int().check(z.gte(0)),
  /** Each entry's own text; its UTF-8 bytes are what was hashed. */
  entries: z.array(z.string()).check(z.maxLength(MAX_PUSH_ENTRIES)),
  head: z.string().check(z.maxLength(65_536)),
  /** The last company checkpoint that the phone has verified, the whole note; empty where it has none (L49). */
  seen: z.string().check(z.maxLength(65_536)),
})
export type PushRequest = z.infer<typeof pushRequest>

/** What became of one entry, in the order pushed. */
export const pushVerdict = z.union([
  /** In the log, and committed, at this position. */
  z.strictObject({ is: z.literal('kept'), position: z.int() }),
  /** Not taken; the code has a sentence in the dictionaries, `at` points to the field. Noted in the log by its hash. */
  z.strictObject({ is: z.literal('refused'), code: z.string(), at: z.string() }),
  /** Its `v` is newer than this server: try again later. */
  z.strictObject({ is: z.literal('waits-for-server') }),
  /** The device was withdrawn: set aside until an owner decides. */
  z.strictObject({ is: z.literal('set-aside') }),
])
export type PushVerdict = z.infer<typeof pushVerdict>

export const pushAnswer = z.strictObject({
  verdicts: z.array(pushVerdict),
  /** Size of the company log after the commit; 0 where it is not to be told. */
  size: z.int(),
  /** The server's clock at receipt, milliseconds since the epoch: the phone keeps the difference to its own. */
  serverTime: z.int(),
})
export type PushAnswer = z.infer<typeof pushAnswer>
