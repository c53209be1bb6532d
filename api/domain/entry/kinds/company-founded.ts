import * as z from 'zod/mini'
import { publicKey, words, zoneName } from '../fields.ts'
import { kind } from '../kind.ts'

/** The log's first entry: it names the company, and the log's own key from within (L28). */
export const companyFounded = kind(
  { thread: 'company', maker: 'server' },
  z.strictObject({ name: words(120), zone: zoneName, origin: words(120), logKey: publicKey }),
)
