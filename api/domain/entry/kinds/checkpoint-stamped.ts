import * as z from 'zod/mini'
import { count, hash, localTime } from '../fields.ts'
import { kind } from '../kind.ts'

/**
 * An outside authority stamped the log's checkpoint of a size (RFC 3161). The token's bytes are kept beside the log; this
 * names them by their SHA-256, with the nonce that was asked with (hex) and the authority's time, so that a record which
 * brings the token is a function of the log (L57).
 */
export const checkpointStamped = kind(
  { thread: 'company', maker: 'server', since: 2 },
  z.strictObject({
    size: count.check(z.gte(1)),
    token: hash,
    nonce: z.string().check(z.regex(/^(?:[0-9a-f]{2}){8,32}$/)),
    stampedAt: localTime,
  }),
)
