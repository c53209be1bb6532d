import * as z from 'zod/mini'
import { count, hash, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** A photo by the SHA-256 of its bytes as the phone got them; the same hash stands in the entry's evidence. */
export const photoTaken = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({
    photo: hash,
    bytes: count,
    type: z.enum(['image/jpeg', 'image/png', 'image/webp', 'image/heic']),
    shows: z.enum(['ticket', 'load', 'base', 'surface', 'defect', 'other']),
    load: z.optional(uuid),
  }),
)
