import type * as z from 'zod/mini'
import { type BytesProblem, readPlain } from '../log/bytes.ts'
import { toHex } from '../log/encoding.ts'
import { hashLeaf } from '../log/leaf.ts'
import { fail, ok, type Result } from '../result.ts'
import type { Sha256 } from '../world.ts'
import { type Entry, type Envelope, envelope } from './envelope.ts'
import type { KindSpec } from './kind.ts'
import { isKind, KINDS, VOCABULARY } from './registry.ts'

/** An entry with the hash of its bytes (hex), by which all others name it. */
export type HashedEntry = { readonly hash: string; readonly entry: Entry }
/** Bytes of a later release: kept and passed on, not yet read (L9). */
export type UnreadEntry = { readonly hash: string; readonly newer: number }
export type ReadEntry = HashedEntry | UnreadEntry

export type EntryProblem = BytesProblem | 'entry-malformed' | 'kind-unknown'

export const isUnread = (read: ReadEntry): read is UnreadEntry => 'newer' in read

/** SPEC L5. */
export const hashEntry = (bytes: Uint8Array, sha256: Sha256): string => toHex(hashLeaf(bytes, sha256))

/**
 * An entry's bytes, read strictly: canonical form, envelope, then the body by the shape of its own release, lifted to
 * today's. Fails with the pointer of the first field that is wrong. `vocabulary` is what the reader knows.
 */
export const readEntry = (
  bytes: Uint8Array,
  sha256: Sha256,
  vocabulary = VOCABULARY,
): Result<ReadEntry, EntryProblem> => {
  const plain = readPlain(bytes)
  if (!plain.ok) return plain
  const hash = hashEntry(bytes, sha256)
  const newer = newerThan(plain.value, vocabulary)
  if (newer !== undefined) return ok({ hash, newer })
  const read = envelope.safeParse(plain.value)
  if (!read.success) return malformed(read.error, '')
  const entry = readBody(read.data)
  return entry.ok ? ok({ hash, entry: entry.value }) : entry
}

const newerThan = (plain: unknown, vocabulary: number): number | undefined => {
  if (typeof plain !== 'object' || plain === null || !('v' in plain)) return undefined
  return typeof plain.v === 'number' && plain.v > vocabulary ? plain.v : undefined
}

const readBody = (read: Envelope): Result<Entry, 'entry-malformed' | 'kind-unknown'> => {
  if (!isKind(read.kind)) return fail('kind-unknown', '/kind', { kind: read.kind.slice(0, 60) })
  const spec: KindSpec = KINDS[read.kind]
  const at = spec.shapes.findLastIndex((shape) => shape.since <= read.v)
  const shape = spec.shapes[at]
  if (!shape) return fail('kind-unknown', '/kind', { kind: read.kind, v: read.v })
  const body = shape.schema.safeParse(read.body)
  if (!body.success) return malformed(body.error, '/body')
  const crossed = rulesAcrossFields(read)
  if (crossed) return crossed
  const lifted = spec.lifts.slice(at).reduce<unknown>((older, lift) => lift(older as never), body.data)
  // The schema of this kind has just read the body, so kind and body belong together.
  return ok({ ...read, body: lifted } as Entry)
}

const rulesAcrossFields = (read: Envelope) => {
  if (read.why && !read.corrects) return fail('entry-malformed', '/why')
  if (read.kind === 'entry.withdrawn' && !read.corrects) return fail('entry-malformed', '/corrects')
  const server = KINDS[read.kind as keyof typeof KINDS].maker === 'server'
  if ((read.by.known === 'server') !== server) return fail('entry-malformed', '/by')
  if ((read.source === 'server') !== server) return fail('entry-malformed', '/source')
  if (read.kind === 'photo.taken' && !read.evidence?.includes(String(read.body.photo)))
    return fail('entry-malformed', '/evidence')
  return undefined
}

const malformed = (error: z.core.$ZodError, under: string) => {
  const issue = error.issues[0]
  const unknown = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : []
  const steps = [...(issue?.path ?? []), ...unknown]
  // RFC 6901 (2013) §4.
  const path = steps.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')
  return fail('entry-malformed', `${under}${path}`)
}
