import * as z from 'zod/mini'
import { hash, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** Bytes that the server did not take, by their hash, and the code that says why (L31). */
export const entryRefused = kind(
  { thread: 'company', maker: 'server' },
  z.strictObject({
    hash,
    device: uuid,
    code: z.string().check(z.regex(/^[a-z]+(?:-[a-z]+)*$/), z.maxLength(60)),
  }),
)
