import * as z from 'zod/mini'
import { count, hash, uuid, words } from '../fields.ts'
import { kind, widened } from '../kind.ts'

export const PHOTO_SHOWS = [
  'ticket',
  'load',
  'base',
  'depth',
  'level',
  'forms',
  'reinforcement',
  'test',
  'water',
  'edge',
  'surface',
  'cure',
  'cover',
  'defect',
  'other',
] as const

const first = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({
    photo: hash,
    bytes: count,
    type: z.enum(['image/jpeg', 'image/png', 'image/webp', 'image/heic']),
    shows: z.enum(['ticket', 'load', 'base', 'surface', 'defect', 'other']),
    load: z.optional(uuid),
  }),
)

/** A photo by the SHA-256 of its bytes as the phone got them; the same hash stands in the entry's evidence. */
export const photoTaken = widened(
  first,
  2,
  z.strictObject({
    photo: hash,
    bytes: count,
    type: z.enum(['image/jpeg', 'image/png', 'image/webp', 'image/heic']),
    shows: z.enum(PHOTO_SHOWS),
    load: z.optional(uuid),
    part: z.optional(uuid),
    where: z.optional(words(80)),
  }),
)
