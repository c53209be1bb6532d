import * as z from 'zod/mini'
import { count, hash } from '../fields.ts'
import { kind } from '../kind.ts'

/** The whole photo reached the server and its hash agreed (L32). */
export const photoReceived = kind(
  { thread: 'job', maker: 'server' },
  z.strictObject({ photo: hash, bytes: count }),
)
