import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { readEntry } from '../../api/domain/entry/read.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { readCheckpoint, writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { readHead, writeHead } from '../../api/domain/log/device-log.ts'
import {
  equalBytes,
  joinBytes,
  readBase64,
  readHex,
  readUtf8,
  toBase64,
  toHex,
  toUtf8,
} from '../../api/domain/log/encoding.ts'
import { hashLeaf, readLeaf, writeLeaf } from '../../api/domain/log/leaf.ts'
import {
  type NoteKey,
  openNote,
  readNote,
  readVerifierKey,
  signNote,
  writeVerifierKey,
} from '../../api/domain/log/note.ts'
import {
  consistencyProof,
  inclusionProof,
  subtrees,
  verifyConsistency,
  verifyInclusion,
} from '../../api/domain/log/proof.ts'
import {
  readConsistency,
  readTlogProof,
  writeConsistency,
  writeTlogProof,
} from '../../api/domain/log/proof-file.ts'
import { readSlip, writeSlip } from '../../api/domain/log/slip.ts'
import { readLocalTime } from '../../api/domain/time.ts'
import { signingKey } from '../../api/server/keys.ts'
import { writeZip } from '../../api/server/record/write-zip.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import { readerOf } from '../../api/verify/reader.ts'
import { readZip } from '../../api/verify/zip.ts'
import { entryText, openSite } from '../api/site.ts'
import { createChance } from '../kit/chance.ts'
import { damaged, wildBytes } from './damage.ts'
import { FUZZ_TIMEOUT, RUNS, SEED } from './runs.ts'

const chance = createChance(41)
const COMPANY = '019db000-0000-7000-8000-00000000c0c0'
const ORIGIN = `screedbook/${COMPANY}`
const hashes = Array.from({ length: 11 }, () => hashLeaf(chance.bytes(97), sha256))
const roots = subtrees(hashes, sha256)
const head = (size: number) => ({ size, root: roots(0, size) })
const leaf = writeLeaf({
  receivedAt: 1_776_772_800_000,
  tag: chance.bytes(16),
  count: 3,
  previous: hashes[0]!,
  entryHash: hashes[1]!,
})
const slip = writeSlip({ origin: ORIGIN, head: head(11), count: 3, last: hashes[2]! })
const checkpoint = writeCheckpoint({ origin: ORIGIN, ...head(11) })
const deviceHead = writeHead({
  origin: `${ORIGIN}/019db000-0000-7000-8000-0000000000de/1`,
  ...head(7),
  seen: head(5),
  clock: { at: '2026-04-21T07:05:10.125-05:00', boot: COMPANY, mono: 1234 },
})
const consistency = writeConsistency({ old: head(6), new: head(11), path: consistencyProof(6, 11, roots) })
const signer = signingKey(chance.bytes(32))
const key: NoteKey = { name: ORIGIN, publicKey: signer.publicKey }
const verifierKey = writeVerifierKey(key, sha256)

let note: Uint8Array
let twice: Uint8Array
let proof: Uint8Array
let entries: readonly Uint8Array[]
let zip: Uint8Array
beforeAll(async () => {
  const signed = await signNote(checkpoint, key, signer.sign, sha256)
  note = toUtf8(signed)
  twice = toUtf8(`${signed}— somebody.else ${toBase64(chance.bytes(69))}\n`)
  proof = toUtf8(writeTlogProof({ index: 4, path: inclusionProof(4, 11, roots), note: signed }))
  const site = await openSite({ seed: 43 })
  const by = site.owner
  entries = [
    entryText(site, by, {}),
    entryText(site, by, { kind: 'load.arrived', body: { load: COMPANY } }),
    entryText(site, by, { corrects: ['a'.repeat(64)], why: { lang: 'es', text: 'fue la otra' } }),
  ].map((text) => toUtf8(text))
  const members = [
    { name: 'a.txt', bytes: toUtf8('one line\n') },
    { name: 'entries/000001.json', bytes: entries[0]! },
    { name: 'photos/one.jpg', bytes: chance.bytes(300) },
  ]
  zip = new Uint8Array(await new Response(writeZip(members)).arrayBuffer())
})

type Read = { readonly ok: boolean; readonly problem?: { readonly code: string } }
type Reader<T extends Read> = {
  readonly name: string
  readonly wholes: () => readonly Uint8Array[]
  readonly read: (bytes: Uint8Array) => T
  /** What was read, written again: of each value there is one spelling. Undefined where parts are ignored by rule. */
  readonly again: (value: never, bytes: Uint8Array) => Uint8Array | undefined
}
const reader = <V>(
  name: string,
  wholes: () => readonly Uint8Array[],
  read: (bytes: Uint8Array) => { ok: true; value: V } | { ok: false; problem: { code: string } },
  again: (value: V, bytes: Uint8Array) => Uint8Array | undefined,
): Reader<Read> => ({ name, wholes, read, again })

const text = (bytes: Uint8Array): string => readUtf8(bytes) ?? ''
const found = <V>(value: V | undefined, code: string) =>
  value === undefined ? { ok: false as const, problem: { code } } : { ok: true as const, value }
const isText = (bytes: Uint8Array): boolean => readUtf8(bytes) !== undefined
const ofText =
  <R extends Read>(read: (text: string) => R) =>
  (bytes: Uint8Array): R =>
    isText(bytes) ? read(text(bytes)) : ({ ok: false, problem: { code: 'not-utf8' } } as never)

const READERS: readonly Reader<Read>[] = [
  reader(
    'L17 notes',
    () => [note, twice],
    readNote,
    ({ text, signatures }) => {
      const lines = signatures.map(
        ({ name, keyId, signature }) => `— ${name} ${toBase64(joinBytes(keyId, signature))}\n`,
      )
      return toUtf8(`${text}\n${lines.join('')}`)
    },
  ),
  reader(
    'L20 checkpoints',
    () => [toUtf8(checkpoint)],
    ofText(readCheckpoint),
    (value) => toUtf8(writeCheckpoint(value)),
  ),
  // Further extension lines are ignored (L24).
  reader(
    'L24 heads',
    () => [toUtf8(deviceHead)],
    ofText(readHead),
    (value, bytes) => (text(bytes).split('\n').length === 6 ? toUtf8(writeHead(value)) : undefined),
  ),
  reader(
    'L33 tlog-proofs',
    () => [proof],
    readTlogProof,
    ({ index, path, note }, bytes) =>
      text(bytes).includes('\nextra ')
        ? undefined
        : toUtf8(writeTlogProof({ index, path, note: text(note) })),
  ),
  reader(
    'L34 consistency files',
    () => [toUtf8(consistency)],
    readConsistency,
    (value) => toUtf8(writeConsistency(value)),
  ),
  reader(
    'L35 slips',
    () => [toUtf8(slip)],
    readSlip,
    (value) => toUtf8(writeSlip(value)),
  ),
  reader(
    'L19 verifier keys',
    () => [toUtf8(verifierKey)],
    ofText((t) => readVerifierKey(t, sha256)),
    (value) => toUtf8(writeVerifierKey(value, sha256)),
  ),
  reader(
    'L13 leaves',
    () => [leaf],
    readLeaf,
    (value) => writeLeaf(value),
  ),
  reader(
    'L51 base64',
    () => [toUtf8(toBase64(leaf))],
    ofText((t) => found(readBase64(t), 'none')),
    (value) => toUtf8(toBase64(value)),
  ),
  reader(
    'L51 hex',
    () => [toUtf8(toHex(leaf))],
    ofText((t) => found(readHex(t), 'none')),
    (value) => toUtf8(toHex(value)),
  ),
  reader(
    'L1–L9 entries',
    () => entries,
    (bytes) => readEntry(bytes, sha256),
    (_, bytes) => toUtf8(canonicalJson(JSON.parse(text(bytes)))),
  ),
  reader(
    'L6 local times',
    () => ['2026-04-21T07:05-05:00', '2026-04-21T07:05:10.125+05:30'].map(toUtf8),
    ofText((t) => found(readLocalTime(t), 'none')),
    () => undefined,
  ),
]

describe('[fuzz] whatever bytes a reader is given, it says what is wrong or reads the one spelling, and never throws', () => {
  for (const { name, wholes, read, again } of READERS)
    test(
      `[fuzz] ${name}`,
      () => {
        for (const whole of wholes()) expect(read(whole).ok, text(whole)).toBe(true)
        fc.assert(
          fc.property(fc.oneof({ weight: 3, arbitrary: damaged(wholes()) }, wildBytes), (bytes) => {
            const result = read(bytes)
            if (!result.ok) {
              expect(result.problem!.code).toMatch(/^[a-z0-9-]+$/)
              return
            }
            const written = again((result as unknown as { value: never }).value, bytes)
            if (written)
              expect(text(written) === text(bytes) && equalBytes(written, bytes), text(bytes)).toBe(true)
          }),
          { numRuns: RUNS, seed: SEED },
        )
      },
      FUZZ_TIMEOUT,
    )
})

test(
  '[fuzz] L18 a damaged note opens only where what its key signed is untouched',
  async () => {
    await fc.assert(
      fc.asyncProperty(damaged([note, twice]), async (bytes) => {
        const opened = await openNote(bytes, [key], { sha256, verify: verifySignature })
        if (opened.ok) expect(opened.value).toBe(checkpoint)
        else expect(['note-malformed', 'note-unsigned', 'note-signature']).toContain(opened.problem.code)
      }),
      { numRuns: RUNS, seed: SEED },
    )
  },
  FUZZ_TIMEOUT,
)

test(
  '[fuzz] L11 no claim but the true one is proven, of inclusion and of consistency',
  () => {
    const hash = fc.oneof(fc.constantFrom(...hashes), fc.uint8Array({ minLength: 0, maxLength: 40 }))
    const number = fc.oneof(
      fc.integer({ min: -2, max: 20 }),
      fc.constantFrom(2 ** 53, 2 ** 53 - 1, 0.5, Number.NaN, 1e300),
    )
    const claim = fc.record({
      a: number,
      b: number,
      root: hash,
      other: hash,
      path: fc.array(hash, { maxLength: 6 }),
      from: fc.nat(10),
      to: fc.nat(11),
    })
    fc.assert(
      fc.property(claim, ({ a, b, root, other, path, from, to }) => {
        expect(verifyInclusion({ index: a, size: b, leafHash: other, root, path }, sha256) && b !== 1).toBe(
          false,
        )
        // A size 0 is extended by every tree, and every tree by itself: both say nothing.
        const says = a > 0 && a !== b
        expect(
          verifyConsistency({ oldSize: a, oldRoot: root, newSize: b, newRoot: other, path }, sha256) && says,
        ).toBe(false)
        const true_ = {
          index: from,
          size: 11,
          leafHash: hashes[from]!,
          root: roots(0, 11),
          path: inclusionProof(from, 11, roots),
        }
        expect(verifyInclusion(true_, sha256)).toBe(true)
        const moved = { ...true_, index: to }
        expect(verifyInclusion(moved, sha256)).toBe(to === from)
        const longer = [...true_.path, other]
        expect(verifyInclusion({ ...true_, path: longer }, sha256)).toBe(false)
      }),
      { numRuns: RUNS, seed: SEED },
    )
  },
  FUZZ_TIMEOUT,
)

test(
  '[fuzz] L37 a damaged ZIP is read as faulty or as another, and never throws',
  async () => {
    const contents = async (bytes: Uint8Array): Promise<{ faults: number; text: string }> => {
      const { members, faults } = await readZip(readerOf(bytes))
      const list = members.map(
        ({ name, offset, size }) => `${name} ${toHex(bytes.slice(offset, offset + size))}`,
      )
      return { faults: faults.length, text: list.join('\n') }
    }
    const whole = await contents(zip)
    expect(whole.faults).toBe(0)
    expect(whole.text.split('\n').length).toBe(3)
    await fc.assert(
      fc.asyncProperty(fc.oneof({ weight: 4, arbitrary: damaged([zip]) }, wildBytes), async (bytes) => {
        const read = await contents(bytes)
        if (read.faults === 0 && !equalBytes(bytes, zip)) expect(read.text).not.toBe(whole.text)
      }),
      { numRuns: RUNS, seed: SEED },
    )
  },
  FUZZ_TIMEOUT,
)
