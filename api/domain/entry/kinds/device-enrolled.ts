import * as z from 'zod/mini'
import { publicKey, uuid } from '../fields.ts'
import { kind, widened } from '../kind.ts'

const serverDevice = z.strictObject({ device: uuid, key: publicKey, use: z.literal('server') })
const personal = { device: uuid, person: uuid, key: publicKey }

const first = kind(
  { thread: 'company', maker: 'server' },
  z.union([z.strictObject({ ...personal, use: z.enum(['phone', 'office']) }), serverDevice]),
)

/**
 * A device showed a one-time code and a public key. The server's own device has no person (L29). Of a shared phone the person
 * is the one who answers for it; each entry made on it names who was picked there.
 */
export const deviceEnrolled = widened(
  first,
  2,
  z.union([z.strictObject({ ...personal, use: z.enum(['phone', 'office', 'shared']) }), serverDevice]),
)
