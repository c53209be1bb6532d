import fc from 'fast-check'
import { joinBytes, readUtf8, toUtf8 } from '../../api/domain/log/encoding.ts'

const spliced = (bytes: Uint8Array, at: number, cut: number, put: Uint8Array): Uint8Array =>
  joinBytes(bytes.slice(0, at), put, bytes.slice(at + cut))

/** One of the whole things, damaged: bytes flipped, cut, put in or doubled, lines dropped or changed about. */
export const damaged = (wholes: readonly Uint8Array[]): fc.Arbitrary<Uint8Array> => {
  const step = fc.record({
    how: fc.constantFrom('flip', 'cut', 'put', 'double', 'line', 'swap', 'digit', 'end'),
    at: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
    by: fc.integer({ min: 1, max: 255 }),
    put: fc.oneof(
      fc.uint8Array({ minLength: 1, maxLength: 4 }),
      fc.constantFrom('\n', ' ', '0', '=', '\n\n').map(toUtf8),
    ),
  })
  return fc
    .tuple(fc.constantFrom(...wholes), fc.array(step, { minLength: 1, maxLength: 3 }))
    .map(([whole, steps]) => steps.reduce((bytes, one) => damage(bytes, one), whole))
}

type Step = { readonly how: string; readonly at: number; readonly by: number; readonly put: Uint8Array }

const damage = (bytes: Uint8Array, { how, at, by, put }: Step): Uint8Array => {
  const place = Math.floor(at * bytes.length)
  if (bytes.length === 0) return put
  if (how === 'flip') return bytes.with(place, bytes[place]! ^ by)
  if (how === 'cut') return spliced(bytes, place, by % 40, new Uint8Array())
  if (how === 'put') return spliced(bytes, place, 0, put)
  if (how === 'double') return spliced(bytes, place, 0, bytes.slice(place, place + (by % 60)))
  if (how === 'end') return bytes.slice(0, place)
  if (how === 'digit') return bytes.with(place, 0x30 + (by % 10))
  const lines = (readUtf8(bytes) ?? '').split('\n')
  const line = Math.floor(at * lines.length)
  if (how === 'line') return toUtf8(lines.toSpliced(line, 1).join('\n'))
  return toUtf8(lines.with(line, lines[(line + by) % lines.length]!).join('\n'))
}

/** Bytes of no form at all, and texts of lines that look like somebody's. */
export const wildBytes: fc.Arbitrary<Uint8Array> = fc.oneof(
  fc.uint8Array({ maxLength: 200 }),
  fc.string({ unit: 'binary', maxLength: 200 }).map((text) => toUtf8(text.toWellFormed())),
  fc
    .array(
      fc.constantFrom('', '0', '12', 'AAAA', '— a b', 'seen 0 AA==', 'clock', 'index 1', '{"v":1}', '-0'),
      { maxLength: 9 },
    )
    .map((lines) => toUtf8(lines.join('\n'))),
)
