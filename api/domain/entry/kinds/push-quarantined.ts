import * as z from 'zod/mini'
import { hash, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** Hashes in one entry, so that it stays below the size that an entry may have (L3). */
export const MOST_QUARANTINED = 100

/**
 * What a withdrawn device sent, by hash: the bytes are kept outside the log until an owner decides (`push.decided`). The
 * server says so in the log, so that nothing that was set aside can get lost unseen.
 */
export const pushQuarantined = kind(
  { thread: 'company', maker: 'server', since: 2 },
  z.strictObject({
    device: uuid,
    entries: z.array(hash).check(z.minLength(1), z.maxLength(MOST_QUARANTINED)),
  }),
)
