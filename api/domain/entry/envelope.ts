import * as z from 'zod/mini'
import { count, hash, localTime, spoken, uuid, uuidV7 } from './fields.ts'
import type { BodyOf, Kind } from './registry.ts'

/** Who made an entry, and how that was known: on their own device, picked from a list on a shared one, … */
const by = z.union([
  z.strictObject({ person: uuid, known: z.enum(['own-device', 'picked', 'pin', 'passkey']) }),
  z.strictObject({ known: z.literal('server') }),
])

const sortedOnce = (hashes: readonly string[]): boolean =>
  hashes.every((h, i) => i === 0 || hashes[i - 1]! < h)

/** All of an entry but the shape of its body: SPEC L6. */
export const envelope = z.strictObject({
  v: z.int().check(z.gte(1)),
  id: uuidV7,
  job: uuid,
  kind: z.string().check(z.maxLength(60)),
  body: z.record(z.string(), z.unknown()),
  occurredAt: localTime,
  recordedAt: localTime,
  boot: uuid,
  mono: count,
  device: uuid,
  by,
  source: z.enum(['tap', 'voice', 'photo', 'import', 'server']),
  evidence: z.optional(z.array(hash).check(z.minLength(1), z.maxLength(20))),
  corrects: z.optional(z.array(hash).check(z.minLength(1), z.maxLength(20), z.refine(sortedOnce))),
  why: z.optional(spoken(500)),
})

export type Envelope = z.infer<typeof envelope>
export type By = Envelope['by']
export type Source = Envelope['source']

/** An entry of a known kind, its body lifted to today's shape. */
export type EntryOf<K extends Kind> = Omit<Envelope, 'kind' | 'body'> & {
  readonly kind: K
  readonly body: BodyOf<K>
}
export type Entry = { [K in Kind]: EntryOf<K> }[Kind]
