import * as z from 'zod/mini'
import { publicKey, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** A device showed a one-time code and a public key. The server's own device has no person (L29). */
export const deviceEnrolled = kind(
  { thread: 'company', maker: 'server' },
  z.union([
    z.strictObject({ device: uuid, person: uuid, key: publicKey, use: z.enum(['phone', 'office']) }),
    z.strictObject({ device: uuid, key: publicKey, use: z.literal('server') }),
  ]),
)
