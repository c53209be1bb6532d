import { type Fail, fail, ok, type Result } from '../result.ts'
import { readUtf8, toUtf8 } from './encoding.ts'

/** A value that an entry may hold: L2. */
export type Plain = string | number | readonly Plain[] | { readonly [name: string]: Plain }

export const MAX_ENTRY_BYTES = 16_384
const MAX_DEPTH = 12

/**
 * The canonical text of a JSON value: members sorted by UTF-16 code units, ECMAScript's own spelling of numbers and
 * strings. Fails by exception on what JSON cannot hold (undefined, NaN, a lone surrogate), since that is our bug.
 * Source: RFC 8785 (2020), §3.2.
 */
export const canonicalJson = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (typeof value === 'object' && value !== null) {
    const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    return `{${members.map(([name, member]) => `${canonicalString(name)}:${canonicalJson(member)}`).join(',')}}`
  }
  if (typeof value === 'string') return canonicalString(value)
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new TypeError('a number that JSON cannot hold')
  if (value === undefined || typeof value === 'function' || typeof value === 'bigint')
    throw new TypeError(`a ${typeof value} that JSON cannot hold`)
  return JSON.stringify(value)
}

const canonicalString = (text: string): string => {
  if (!text.isWellFormed()) throw new TypeError('a string with a lone surrogate')
  return JSON.stringify(text)
}

/** The bytes of an entry, made once, on the device. They are never made again from a parsed entry. */
export const writePlain = (value: Plain): Uint8Array => toUtf8(canonicalJson(value))

export type BytesProblem =
  | 'entry-too-large'
  | 'entry-not-utf8'
  | 'entry-not-json'
  | 'entry-not-canonical'
  | 'entry-value-kind'
  | 'entry-too-deep'

/**
 * The value in an entry's bytes, if they are its one canonical form (L1–L4). Doubled names, other spellings and white
 * space all fail as `entry-not-canonical`, since writing the parsed value again gives other bytes.
 */
export const readPlain = (bytes: Uint8Array): Result<Plain, BytesProblem> => {
  if (bytes.length > MAX_ENTRY_BYTES)
    return fail('entry-too-large', '', { bytes: bytes.length, most: MAX_ENTRY_BYTES })
  const text = readUtf8(bytes)
  if (text === undefined) return fail('entry-not-utf8')
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return fail('entry-not-json')
  }
  const wrong = notPlain(value, '', 0)
  if (wrong) return wrong
  // Strict UTF-8 has one spelling for each text, so the texts are equal just where the bytes are.
  return canonicalJson(value) === text ? ok(value as Plain) : fail('entry-not-canonical')
}

const notPlain = (value: unknown, at: string, depth: number): Fail<BytesProblem> | undefined => {
  if (typeof value === 'string') return value.isWellFormed() ? undefined : fail('entry-value-kind', at)
  if (typeof value === 'number')
    return Number.isSafeInteger(value) && !Object.is(value, -0) ? undefined : fail('entry-value-kind', at)
  if (typeof value !== 'object' || value === null) return fail('entry-value-kind', at)
  if (depth >= MAX_DEPTH) return fail('entry-too-deep', at, { most: MAX_DEPTH })
  for (const [name, member] of Object.entries(value)) {
    if (!name.isWellFormed()) return fail('entry-value-kind', at)
    const wrong = notPlain(member, `${at}/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`, depth + 1)
    if (wrong) return wrong
  }
  return undefined
}
