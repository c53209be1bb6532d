import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  compare,
  dimensionOf,
  inUnit,
  over,
  QUANTITY_TEXT,
  ratio,
  readNumber,
  showNumber,
  sum,
  times,
  UNITS,
  type Unit,
} from '../../api/domain/units.ts'

const shown = (text: string, from: Unit, to: Unit, digits: number): string => {
  const number = inUnit({ text, unit: from }, to)
  if (!number.ok) throw new Error(number.problem.code)
  return showNumber(number.value, digits)
}

/**
 * Source: NIST Special Publication 811 (2008), Appendix B.8, "Factors for units listed alphabetically". Factors that it
 * prints in bold are exact; the others it rounds to seven digits, and so does this table.
 */
const FACTORS: readonly { line: string; from: Unit; to: Unit; factor: string; digits: number }[] = [
  // Exact: 2.54 E+01.
  { line: 'inch (in) to millimeter (mm)', from: 'in', to: 'mm', factor: '25.4', digits: 12 },
  // Exact: 3.048 E-01 m.
  { line: 'foot (ft) to meter (m), here in mm', from: 'ft', to: 'mm', factor: '304.8', digits: 12 },
  // 7.645 549 E-01.
  { line: 'cubic yard (yd³) to cubic meter (m³)', from: 'yd3', to: 'm3', factor: '0.7645549', digits: 7 },
  // 3.785 412 E+00.
  { line: 'gallon (U.S.) (gal) to liter (L)', from: 'gal', to: 'L', factor: '3.785412', digits: 6 },
  // 3.785 412 E-03.
  {
    line: 'gallon (U.S.) (gal) to cubic meter (m³)',
    from: 'gal',
    to: 'm3',
    factor: '0.003785412',
    digits: 9,
  },
  // Exact: 1.0 E-03.
  { line: 'liter (L) to cubic meter (m³)', from: 'L', to: 'm3', factor: '0.001', digits: 12 },
]

describe('[units] conversions are those of NIST SP 811 (2008), Appendix B.8', () => {
  for (const { line, from, to, factor, digits } of FACTORS)
    test(`[units] ${line}`, () => expect(shown('1', from, to, digits)).toBe(factor))

  test('[units] they are exact: 231 cubic inches a gallon, 27 cubic feet a yard', () => {
    // SP 811, Appendix B.6: the inch is exactly 2.54 cm, hence the foot 0.3048 m.
    expect(shown('1', 'yd3', 'm3', 20)).toBe('0.764554857984')
    expect(shown('1', 'gal', 'L', 20)).toBe('3.785411784')
    expect(shown('12', 'in', 'ft', 20)).toBe('1')
    // 46,656 cubic inches a yard, of 231 a gallon.
    const gallons = inUnit({ text: '1', unit: 'yd3' }, 'gal')
    expect(gallons.ok && compare(gallons.value, ratio(46_656n, 231n))).toBe(0)
  })
})

const quantityText = fc.oneof(
  fc
    .tuple(fc.nat(9_999_999), fc.option(fc.stringMatching(/^\d{1,6}$/)))
    .map(([whole, part]) => (part === null ? String(whole) : `${whole}.${part}`)),
  fc
    .tuple(fc.option(fc.nat(9_999_999)), fc.nat(9_999), fc.integer({ min: 1, max: 9_999 }))
    .map(([whole, n, d]) => `${whole === null ? '' : `${whole} `}${n}/${d}`),
)
const pair = fc
  .tuple(fc.constantFrom(...UNITS), fc.constantFrom(...UNITS))
  .filter(([a, b]) => dimensionOf(a) === dimensionOf(b))

describe('[units] properties', () => {
  test('[units] there and back again is the same number, exactly', () => {
    fc.assert(
      fc.property(quantityText, pair, (text, [from, to]) => {
        const there = inUnit({ text, unit: from }, to)
        const one = inUnit({ text: '1', unit: to }, from)
        const start = readNumber(text)
        if (!there.ok || !one.ok || !start.ok) throw new Error('not read')
        expect(compare(times(there.value, one.value), start.value)).toBe(0)
      }),
      { seed: 71340 },
    )
  })

  test('[units] a decimal text is the number that JavaScript’s own reading of it is nearest to', () => {
    fc.assert(
      fc.property(quantityText, (text) => {
        expect(text).toMatch(QUANTITY_TEXT)
        const number = readNumber(text)
        if (!number.ok) throw new Error(number.problem.code)
        const { n, d } = number.value
        const [whole, fraction] = text.includes('/')
          ? [text.split(' ').at(-2) ?? '0', text.split(' ').at(-1)!]
          : [text, '0/1']
        const [top, bottom] = fraction.split('/').map(Number)
        const plain = Number(whole) + top! / bottom!
        expect(Math.abs(Number(n) / Number(d) - plain)).toBeLessThanOrEqual(plain * 1e-12)
      }),
      { seed: 71340 },
    )
  })

  test('[units] any text is read or refused, and never throws', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(readNumber(text).ok).toBe(QUANTITY_TEXT.test(text))
      }),
      { seed: 71340 },
    )
  })

  test('[units] a sum does not depend on the order', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.bigInt(-99n, 99n), fc.bigInt(1n, 99n))), (parts) => {
        const all = parts.map(([n, d]) => ratio(n, d))
        expect(sum(all.toReversed())).toEqual(sum(all))
      }),
      { seed: 71340 },
    )
  })
})

test('[units] texts out of form, and other dimensions, are refused by a code', () => {
  for (const text of [
    '',
    ' 1',
    '1 ',
    '--1',
    '+1',
    '1.',
    '.5',
    '1e3',
    '1/0',
    '4  1/4',
    '4 1.5',
    '1,5',
    '٣',
    '12345678',
  ])
    expect(readNumber(text), JSON.stringify(text)).toMatchObject({ problem: { code: 'quantity-text' } })
  expect(inUnit({ text: '1', unit: 'gal' }, 'in')).toMatchObject({ problem: { code: 'unit-dimension' } })
  expect(inUnit({ text: '1', unit: 'min' }, 'ft')).toMatchObject({ problem: { code: 'unit-dimension' } })
})

describe('[numbers] what is shown is rounded half away from zero, without trailing zeros', () => {
  const ROWS: readonly [bigint, bigint, number, string][] = [
    [1n, 8n, 2, '0.13'],
    [-1n, 8n, 2, '-0.13'],
    [124n, 1_000n, 2, '0.12'],
    [5n, 1_000n, 2, '0.01'],
    [49n, 10_000n, 2, '0'],
    [-49n, 10_000n, 2, '0'],
    [999n, 1_000n, 2, '1'],
    [-1_995n, 1_000n, 2, '-2'],
    [16n, 1n, 2, '16'],
    [65n, 4n, 2, '16.25'],
    [65n, 4n, 0, '16'],
    [33n, 2n, 0, '17'],
    [-33n, 2n, 0, '-17'],
    [100n, 1n, 2, '100'],
    [0n, 7n, 2, '0'],
  ]
  for (const [n, d, digits, text] of ROWS)
    test(`[numbers] ${n}/${d} to ${digits} digits is ${text}`, () =>
      expect(showNumber(ratio(n, d), digits)).toBe(text))

  test('[numbers] what is shown lies within half a step of the number', () => {
    fc.assert(
      fc.property(
        fc.bigInt(-(10n ** 12n), 10n ** 12n),
        fc.bigInt(1n, 10n ** 6n),
        fc.nat(6),
        (n, d, digits) => {
          const number = ratio(n, d)
          const text = showNumber(number, digits)
          expect(text).toMatch(/^(?:0|-?[1-9]\d*|-?\d+\.\d*[1-9])$/)
          const read = readDecimal(text)
          const twice = (a: bigint) => (a < 0n ? -2n * a : 2n * a)
          // |read − number| ≤ 1 / (2 · 10^digits)
          const off = ratio(read.n * number.d - number.n * read.d, read.d * number.d)
          expect(compare(ratio(twice(off.n), off.d), ratio(1n, 10n ** BigInt(digits)))).toBeLessThanOrEqual(0)
        },
      ),
      { seed: 71340 },
    )
  })
})

const readDecimal = (text: string) => {
  const [whole, part = ''] = text.split('.')
  return over(ratio(BigInt(whole! + part) || 0n), ratio(10n ** BigInt(part.length)))
}
