import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { hashEntry, readEntry } from '../../api/domain/entry/read.ts'
import { KINDS } from '../../api/domain/entry/registry.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { readCheckpoint, writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { readHead, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex, toHex } from '../../api/domain/log/encoding.ts'
import { hashLeaf, readLeaf, writeLeaf } from '../../api/domain/log/leaf.ts'
import { openNote, readVerifierKey, signNote } from '../../api/domain/log/note.ts'
import { verifyConsistency, verifyInclusion } from '../../api/domain/log/proof.ts'
import {
  readConsistency,
  readTlogProof,
  writeConsistency,
  writeTlogProof,
} from '../../api/domain/log/proof-file.ts'
import { readSlip, slipWords, writeSlip } from '../../api/domain/log/slip.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import type { Result } from '../../api/domain/result.ts'
import { signingKey } from '../../api/server/keys.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'

const file = (name: string) => new Uint8Array(readFileSync(new URL(`./v1/${name}`, import.meta.url)))
const text = (name: string) => readFileSync(new URL(`./v1/${name}`, import.meta.url), 'utf8')
const value = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(JSON.stringify(result.problem))
  return result.value
}
const senses = { sha256, verify: verifySignature }
type Vectors = {
  seeds: { log: string; device: string }
  entries: { kind: string; hash: string }[]
  leaves: { kind: string; leaf: string; leafHash: string }[]
  roots: string[]
  slipWords: string[]
}
const vectors: Vectors = JSON.parse(text('vectors.json'))
const leafHashes = vectors.leaves.map((leaf) => readHex(leaf.leafHash)!)
const logKey = value(readVerifierKey(text('log.vkey').trim(), sha256))

describe('[L9] every entry of release 1 is read for ever', () => {
  for (const { kind, hash } of vectors.entries)
    test(kind, () => {
      const bytes = file(`entries/${kind}.json`)
      expect(hashEntry(bytes, sha256)).toBe(hash)
      const read = value(readEntry(bytes, sha256))
      expect(read).toMatchObject({ hash, entry: { kind, v: 1 } })
      // Shapes of release 1 are today's, so nothing was lifted and the bytes can be compared.
      expect(canonicalJson('entry' in read ? read.entry : undefined)).toBe(new TextDecoder().decode(bytes))
    })
})

test('[L50] each kind of release 1 has its vector', () => {
  const released = Object.entries(KINDS)
    .filter(([, spec]) => spec.since === 1)
    .map(([kind]) => kind)
  expect(
    readdirSync(new URL('./v1/entries', import.meta.url))
      .map((name) => name.slice(0, -5))
      .sort(),
  ).toEqual(released.sort())
})

test('[L13] leaves read, write and hash as then', () => {
  for (const { leaf, leafHash } of vectors.leaves) {
    expect(toHex(writeLeaf(value(readLeaf(readHex(leaf)!))))).toBe(leaf)
    expect(toHex(hashLeaf(readHex(leaf)!, sha256))).toBe(leafHash)
  }
})

test('[L11] roots are as then', () => {
  const roots = vectors.roots.map((_, n) =>
    toHex(rootOf(appendAll(EMPTY_FRONTIER, leafHashes.slice(0, n), sha256), sha256)),
  )
  expect(roots).toEqual(vectors.roots)
})

test('[L20] the checkpoint opens, and is signed again to the same bytes', async () => {
  const opened = value(await openNote(file('checkpoint.note'), [logKey], senses))
  const checkpoint = value(readCheckpoint(opened))
  expect(writeCheckpoint(checkpoint)).toBe(opened)
  expect(toHex(checkpoint.root)).toBe(vectors.roots.at(-1))
  const key = signingKey(readHex(vectors.seeds.log)!)
  expect(await signNote(opened, logKey, key.sign, sha256)).toBe(text('checkpoint.note'))
})

test('[L33] the proof of the last leaf holds', () => {
  const proof = value(readTlogProof(file('last.tlog-proof')))
  expect(writeTlogProof({ ...proof, note: text('checkpoint.note') })).toBe(text('last.tlog-proof'))
  const { index, path } = proof
  const claim = {
    index,
    size: leafHashes.length,
    leafHash: leafHashes[index]!,
    root: readHex(vectors.roots.at(-1)!)!,
    path,
  }
  expect(verifyInclusion(claim, sha256)).toBe(true)
})

test('[L34] the consistency file holds', () => {
  const read = value(readConsistency(file('7.consistency')))
  expect(writeConsistency(read)).toBe(text('7.consistency'))
  const { old, new: newer, path } = read
  const claim = { oldSize: old.size, oldRoot: old.root, newSize: newer.size, newRoot: newer.root, path }
  expect(toHex(old.root)).toBe(vectors.roots[7])
  expect(verifyConsistency(claim, sha256)).toBe(true)
})

test('[L24] the device’s head opens, and its proof shows the author of one entry', async () => {
  const device = signingKey(readHex(vectors.seeds.device)!)
  const name = text('device.head').split('\n')[0]!
  const opened = value(await openNote(file('device.head'), [{ name, publicKey: device.publicKey }], senses))
  const head = value(readHead(opened))
  expect(writeHead(head)).toBe(opened)
  const proof = value(readTlogProof(file('author.tlog-proof')))
  const proven = vectors.entries.filter(({ hash }) =>
    verifyInclusion({ ...proof, size: head.size, leafHash: readHex(hash)!, root: head.root }, sha256),
  )
  expect(proven).toHaveLength(1)
})

test('[L35] the slip and its eight words are as then', () => {
  const slip = value(readSlip(file('slip.txt')))
  expect(writeSlip(slip)).toBe(text('slip.txt'))
  expect(slipWords(slip, sha256)).toEqual(vectors.slipWords)
})
