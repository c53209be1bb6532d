import * as z from 'zod/mini'

export const MAX_SET_ASIDE = 100

/**
 * What a withdrawn device sent and what became of it, in the order of receipt, from `from` on. An owner reads it here and
 * decides by an entry, `push.decided`.
 */
export const setAsideAnswer = z.strictObject({
  entries: z.array(
    z.strictObject({
      hash: z.string(),
      /** The entry's text as it was sent. */
      entry: z.string(),
      receivedAt: z.int(),
      is: z.enum(['waiting', 'admitted', 'declined', 'refused']),
    }),
  ),
  more: z.boolean(),
})
