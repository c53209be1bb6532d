import { createHash } from 'node:crypto'
import canonicalize from 'canonicalize'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { canonicalJson, MAX_ENTRY_BYTES, readPlain, writePlain } from '../../../api/domain/log/bytes.ts'
import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { cases } from '../../kit/cases.ts'

const published = cases<
  { json: string },
  { canonical?: string; sha256_hex?: string; sorted_values?: string[] }
>('canonical-json')

describe(`[L1] ${published.claim}: ${published.source}`, () => {
  for (const { name, input, output } of published.rows)
    test(name, () => {
      const text = canonicalJson(JSON.parse(input.json))
      if (output.canonical !== undefined) expect(text).toBe(output.canonical)
      if (output.sha256_hex) expect(createHash('sha256').update(text).digest('hex')).toBe(output.sha256_hex)
      if (output.sorted_values) expect(Object.values(JSON.parse(text))).toEqual(output.sorted_values)
    })
})

test('[L1] our canonical text is that of the general library canonicalize, for any JSON', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => canonicalJson(value) === canonicalize(value)),
    { numRuns: 500 },
  )
})

const plain: fc.Arbitrary<unknown> = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.string({ unit: 'grapheme' }),
    fc.maxSafeInteger().map((n) => (Object.is(n, -0) ? 0 : n)),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.string(), tie('value'), { maxKeys: 4 }),
  ),
})).value

test('[L4] what was written reads back as the same value and the same bytes', () => {
  fc.assert(
    fc.property(plain, (value) => {
      const bytes = writePlain(value as never)
      const read = readPlain(bytes)
      return bytes.length > MAX_ENTRY_BYTES || (read.ok && canonicalJson(read.value) === canonicalJson(value))
    }),
    { numRuns: 500 },
  )
})

test('[L4] no bytes make the reader throw, and what it takes is canonical', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
      const read = readPlain(bytes)
      return !read.ok || canonicalJson(read.value) === new TextDecoder().decode(bytes)
    }),
    { numRuns: 2000 },
  )
})

const refused: readonly [string, string | Uint8Array, string][] = [
  ['a doubled name', '{"a":1,"a":1}', 'entry-not-canonical'],
  ['white space', '{"a": 1}', 'entry-not-canonical'],
  ['members out of order', '{"b":1,"a":1}', 'entry-not-canonical'],
  ['another spelling of a letter', '{"a":"\\u0041"}', 'entry-not-canonical'],
  ['another spelling of a number', '{"a":1e2}', 'entry-not-canonical'],
  ['an escaped solidus', '{"a":"\\/"}', 'entry-not-canonical'],
  ['a fraction', '{"a":1.5}', 'entry-value-kind'],
  ['minus zero', '{"a":-0}', 'entry-value-kind'],
  ['a number past 2^53', '{"a":9007199254740993}', 'entry-value-kind'],
  ['true', '{"a":true}', 'entry-value-kind'],
  ['null', '{"a":null}', 'entry-value-kind'],
  ['a lone surrogate', '{"a":"\\ud800"}', 'entry-value-kind'],
  ['a byte-order mark', '\ufeff{"a":1}', 'entry-not-json'],
  ['bytes that are no UTF-8', new Uint8Array([0x22, 0xff, 0x22]), 'entry-not-utf8'],
  ['too deep', `${'['.repeat(13)}${']'.repeat(13)}`, 'entry-too-deep'],
  ['too large', `"${'a'.repeat(MAX_ENTRY_BYTES)}"`, 'entry-too-large'],
  ['two values', '1 2', 'entry-not-json'],
  ['nothing', '', 'entry-not-json'],
]
for (const [name, text, code] of refused)
  test(`[L1–L4] ${name} is refused`, () => {
    const read = readPlain(typeof text === 'string' ? toUtf8(text) : text)
    expect(read).toMatchObject({ ok: false, problem: { code } })
  })

test('[L3] twelve levels are taken', () => {
  expect(readPlain(toUtf8(`${'['.repeat(12)}${']'.repeat(12)}`)).ok).toBe(true)
})
