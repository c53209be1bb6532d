import { fail, ok, type Result } from '../result.ts'
import type { Sha256 } from '../world.ts'
import type { TreeHead } from './checkpoint.ts'
import { readSize } from './checkpoint.ts'
import { isHash, readHex, readUtf8, toBase64, toHex, toUtf8 } from './encoding.ts'
import { otherVersion, readTreeHead } from './proof-file.ts'
import { SLIP_WORDS } from './slip-words.ts'

/** What is handed to anyone present at the end of a pour: L35. */
export type Slip = {
  readonly origin: string
  readonly head: TreeHead
  readonly count: number
  readonly last: Uint8Array
}

const SLIP = 'screedbook-slip/v1'

export const writeSlip = (slip: Slip): string =>
  [
    SLIP,
    slip.origin,
    String(slip.head.size),
    toBase64(slip.head.root),
    String(slip.count),
    toHex(slip.last),
    '',
  ].join('\n')

/** Fails: `format-unknown`, `slip-malformed`. */
export const readSlip = (bytes: Uint8Array): Result<Slip, 'slip-malformed' | 'format-unknown'> => {
  const text = readUtf8(bytes)
  if (!text?.endsWith('\n')) return fail('slip-malformed')
  const [format, origin, size, root, countText, last, ...more] = text.slice(0, -1).split('\n')
  if (format !== SLIP) return fail(otherVersion(text, SLIP) ? 'format-unknown' : 'slip-malformed')
  const head = readTreeHead(size, root)
  const count = readSize(countText ?? '')
  if (!origin || !head || !count || !last || !isHash(last) || more.length > 0 || count > head.size)
    return fail('slip-malformed')
  return ok({ origin, head, count, last: readHex(last)! })
}

/** Eight words that a person can compare by reading them aloud: the first 88 bits of SHA-256 of the slip's text. */
export const slipWords = (slip: Slip, sha256: Sha256): string[] => {
  let bits = 0n
  for (const byte of sha256(toUtf8(writeSlip(slip))).slice(0, 11)) bits = (bits << 8n) | BigInt(byte)
  return Array.from({ length: 8 }, (_, i) => SLIP_WORDS[Number((bits >> BigInt(77 - 11 * i)) & 2047n)]!)
}

/** The words as somebody typed them, whatever stands between them; a problem names the first that is not on the list. */
export const readSlipWords = (
  text: string,
): Result<readonly string[], 'slip-word-unknown' | 'slip-words-count'> => {
  const words = text.toLowerCase().match(/[a-z]+/g) ?? []
  const strange = words.find((word) => !SLIP_WORDS.includes(word))
  if (strange !== undefined) return fail('slip-word-unknown', strange)
  return words.length === 8 ? ok(words) : fail('slip-words-count', String(words.length))
}
