import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { KindSpec } from '../../api/domain/entry/kind.ts'
import { type Happening, makeEntry } from '../../api/domain/entry/make.ts'
import { hashEntry, readEntry } from '../../api/domain/entry/read.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { sha256 } from '../../api/server/senses.ts'
import { createChance } from '../kit/chance.ts'

const file = (name: string) => new Uint8Array(readFileSync(new URL(`./${name}`, import.meta.url)))
const names = (folder: string) => readdirSync(new URL(`./${folder}/entries`, import.meta.url))
const { entries }: { entries: { name: string; kind: string; hash: string }[] } = JSON.parse(
  readFileSync(new URL('./v2/vectors.json', import.meta.url), 'utf8'),
)

describe('[L9] every entry of release 2 is read for ever', () => {
  for (const { name, kind, hash } of entries)
    test(`[L9] ${name}`, () => {
      const bytes = file(`v2/entries/${name}.json`)
      expect(hashEntry(bytes, sha256)).toBe(hash)
      const read = readEntry(bytes, sha256)
      if (!read.ok || !('entry' in read.value)) throw new Error(JSON.stringify(read))
      expect(read.value).toMatchObject({ hash, entry: { kind, v: 2 } })
      // Shapes of release 2 are today's, so nothing was lifted and the bytes can be compared.
      expect(canonicalJson(read.value.entry)).toBe(new TextDecoder().decode(bytes))
    })

  test('[L9] a reader of release 1 keeps each of them unread', () => {
    for (const { name, hash } of entries)
      expect(readEntry(file(`v2/entries/${name}.json`), sha256, 1)).toEqual({
        ok: true,
        value: { hash, newer: 2 },
      })
  })
})

test('[L54] each kind of release 2 and each widened one has its vectors, and there are no others', () => {
  const shaped = (Object.keys(KINDS) as Kind[]).filter((kind) =>
    (KINDS[kind] as KindSpec).shapes.some(({ since }) => since === 2),
  )
  expect([...new Set(entries.map(({ kind }) => kind))].sort()).toEqual(shaped.sort())
  expect(names('v2').sort()).toEqual(entries.map(({ name }) => `${name}.json`).sort())
})

test('[L54] what says no more than release 1 could say bears 1 when it is made today', () => {
  for (const name of names('v1')) {
    const old = readEntry(file(`v1/entries/${name}`), sha256)
    if (!old.ok || !('entry' in old.value)) throw new Error(name)
    const { v: _, id: __, recordedAt, mono, boot, device, by, ...happening } = old.value.entry
    const bytes = makeEntry(
      happening as Happening<Kind>,
      { device, by, boot },
      { now: 0, recordedAt, mono },
      createChance(1).bytes,
    )
    expect(JSON.parse(new TextDecoder().decode(bytes)).v, name).toBe(1)
  }
})
