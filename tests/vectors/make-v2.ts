/**
 * Made tests/vectors/v2: entries of the kinds that release 2 brought, and of the shapes that it widened. Their bodies come
 * from the shapes themselves, so that each member and each branch occurs somewhere. What is there is never written again: run
 * anew, it adds the kinds that have no vectors yet, and nothing else.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import type { KindSpec } from '../../api/domain/entry/kind.ts'
import { type Happening, makeEntry } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { sha256 } from '../../api/server/senses.ts'
import { anyBody } from '../kit/any-body.ts'
import { createChance } from '../kit/chance.ts'

const FOLDER = fileURLToPath(new URL('./v2', import.meta.url))
const EACH = 4
const COMPANY = '019dafe9-0000-7000-8000-000000000001'
const JOB = '019dafe9-0000-7000-8000-000000000002'
const PERSON = '019dafe9-0000-7000-8000-000000000004'
const DEVICE = '019dafe9-0000-7000-8000-000000000005'
const SERVER = '019dafe9-0000-8000-8000-000000000006'
const BOOT = '019dafe9-0000-7000-8000-000000000007'

const write = (name: string, content: string | Uint8Array): void => {
  const file = path.join(FOLDER, name)
  if (existsSync(file)) throw new Error(`${name} is released: it is never written again`)
  mkdirSync(path.dirname(file), { recursive: true })
  writeFileSync(file, content)
}

const pools = {
  uuid: fc.constantFrom('019dafe9-0000-7000-8000-000000000003', '019dafe9-0000-7000-8000-000000000008'),
  hash: fc.constantFrom('ab'.repeat(32), 'cd'.repeat(32)),
  time: fc.constantFrom('2026-04-21T07:05-05:00', '2026-04-21T07:33:10.125-05:00'),
}

/** Bodies that no shape of an earlier release holds. */
const bodiesOf = (kind: Kind): unknown[] => {
  const { shapes }: KindSpec = KINDS[kind]
  const older = shapes.filter(({ since }) => since < 2)
  const isNew = (body: unknown) => !older.some(({ schema }) => schema.safeParse(body).success)
  const today = shapes.at(-1)!.schema
  return fc
    .sample(anyBody(kind, pools).filter(isNew), { numRuns: EACH, seed: 20260421 })
    .map(readable)
    .filter((body) => today.safeParse(body).success && isNew(body))
}

/** What people write, in place of characters that nobody has: accents, a fraction, quotes, a line's end. */
const WORDS = ['Kvale', 'ya vació “la olla”', '½ in lip', 'gate\nside', 'D’Angelo & Søn']
let word = 0
const readable = (value: unknown): unknown => {
  if (typeof value === 'string') return /^[\x20-\x7e]*$/.test(value) ? value : WORDS[word++ % WORDS.length]
  if (Array.isArray(value)) return value.map(readable)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, readable(member)]))
}

type Vector = { readonly name: string; readonly kind: string; readonly hash: string }
const LIST = path.join(FOLDER, 'vectors.json')
const there: readonly Vector[] = existsSync(LIST) ? JSON.parse(readFileSync(LIST, 'utf8')).entries : []
const kinds = (Object.keys(KINDS) as Kind[]).filter(
  (kind) =>
    (KINDS[kind] as KindSpec).shapes.some(({ since }) => since === 2) &&
    !there.some((vector) => vector.kind === kind),
)
const made = kinds.flatMap((kind): Vector[] => {
  const chance = createChance(
    20260422 + [...kind].reduce((sum, letter) => sum * 31 + letter.charCodeAt(0), 7),
  )
  return bodiesOf(kind).map((body, i) => {
    const { maker, thread } = KINDS[kind]
    const server = maker === 'server'
    const at = `2026-04-21T07:33:${String(i).padStart(2, '0')}.000-05:00`
    const photo = kind === 'photo.taken' ? (body as { photo: string }).photo : undefined
    const bytes = makeEntry(
      {
        job: thread === 'company' ? COMPANY : JOB,
        kind,
        body,
        occurredAt: at,
        source: server ? 'server' : 'tap',
        ...(photo === undefined ? {} : { evidence: [photo] }),
      } as Happening<Kind>,
      {
        device: server ? SERVER : DEVICE,
        by: server ? { known: 'server' } : { known: i % 2 ? 'picked' : 'own-device', person: PERSON },
        boot: BOOT,
      },
      { now: Date.UTC(2026, 3, 21, 12, 33, i), recordedAt: at, mono: 1000 * i },
      chance.bytes,
    )
    const name = `${kind}.${i + 1}`
    write(`entries/${name}.json`, bytes)
    return { name, kind, hash: hashEntry(bytes, sha256) }
  })
})
mkdirSync(FOLDER, { recursive: true })
writeFileSync(LIST, `${JSON.stringify({ entries: [...there, ...made] }, null, 1)}\n`)
