import { fail, ok, type Result } from './result.ts'

/** An exact number: numerator over a positive denominator, in lowest terms. */
export type Ratio = { readonly n: bigint; readonly d: bigint }

/** The unit codes that entries may carry; SPEC L10 gives their UCUM codes. */
export const UNITS = ['in', 'ft', 'mm', 'yd3', 'm3', 'gal', 'L', 'min'] as const
export type Unit = (typeof UNITS)[number]
export type Dimension = 'length' | 'volume' | 'time'

/** What was entered, as it was entered. Only this is signed; everything else is computed from it. */
export type Quantity = { readonly text: string; readonly unit: Unit }

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : gcd(b, a % b))

export const ratio = (n: bigint, d = 1n): Ratio => {
  const sign = d < 0n ? -1n : 1n
  const by = gcd(n, d) || 1n
  return { n: (sign * n) / by, d: (sign * d) / by }
}

export const plus = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d + b.n * a.d, a.d * b.d)
export const minus = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d - b.n * a.d, a.d * b.d)
export const times = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.n, a.d * b.d)
export const over = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d, a.d * b.n)
export const compare = (a: Ratio, b: Ratio): number => {
  const difference = a.n * b.d - b.n * a.d
  return difference < 0n ? -1 : difference > 0n ? 1 : 0
}
export const sum = (all: readonly Ratio[]): Ratio => all.reduce(plus, ratio(0n))

/** SI size of one unit: metre, cubic metre, second. Source: NIST SP 811 (2008), Appendix B.8; all exact. */
const SI: Record<Unit, { dimension: Dimension; size: Ratio }> = {
  in: { dimension: 'length', size: ratio(254n, 10_000n) },
  ft: { dimension: 'length', size: ratio(3_048n, 10_000n) },
  mm: { dimension: 'length', size: ratio(1n, 1_000n) },
  // 27 cubic feet of 0.3048 m.
  yd3: { dimension: 'volume', size: ratio(27n * 3_048n ** 3n, 10_000n ** 3n) },
  m3: { dimension: 'volume', size: ratio(1n) },
  // 231 cubic inches.
  gal: { dimension: 'volume', size: ratio(231n * 254n ** 3n, 10_000n ** 3n) },
  L: { dimension: 'volume', size: ratio(1n, 1_000n) },
  min: { dimension: 'time', size: ratio(60n) },
}

export const dimensionOf = (unit: Unit): Dimension => SI[unit].dimension

/** Text that a quantity may have: digits with or without a point, or whole and fraction (`4 1/4`, `3/8`). */
export const QUANTITY_TEXT = /^(?:\d{1,7}(?:\.\d{1,6})?|(?:\d{1,7} )?\d{1,4}\/[1-9]\d{0,3})$/

/** The exact number in a quantity's text. Fails: `quantity-text`. */
export const readNumber = (text: string): Result<Ratio, 'quantity-text'> => {
  if (!QUANTITY_TEXT.test(text)) return fail('quantity-text', '', { text })
  const fraction = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text)
  if (fraction)
    return ok(plus(ratio(BigInt(fraction[1] ?? 0)), ratio(BigInt(fraction[2]!), BigInt(fraction[3]!))))
  const [whole, part = ''] = text.split('.')
  return ok(ratio(BigInt(whole! + part), 10n ** BigInt(part.length)))
}

/** The quantity in another unit of the same dimension. Fails: `quantity-text`, `unit-dimension`. */
export const inUnit = (quantity: Quantity, unit: Unit): Result<Ratio, 'quantity-text' | 'unit-dimension'> => {
  const number = readNumber(quantity.text)
  if (!number.ok) return number
  if (dimensionOf(quantity.unit) !== dimensionOf(unit))
    return fail('unit-dimension', '', { unit: quantity.unit })
  return ok(over(times(number.value, SI[quantity.unit].size), SI[unit].size))
}

/**
 * A number in digits: at most `digits` after the point, rounded half away from zero, without trailing zeros.
 * What is shown to people; never signed and never read back.
 */
export const showNumber = (number: Ratio, digits = 2): string => {
  const scale = 10n ** BigInt(digits)
  const size = number.n < 0n ? -number.n : number.n
  const rounded = (size * scale * 2n + number.d) / (number.d * 2n)
  const whole = rounded / scale
  const part = (rounded % scale).toString().padStart(digits, '0').replace(/0+$/, '')
  return `${number.n < 0n && rounded !== 0n ? '-' : ''}${whole}${part ? `.${part}` : ''}`
}
