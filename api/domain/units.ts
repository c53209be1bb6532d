import { fail, ok, type Result } from './result.ts'

/** An exact number: numerator over a positive denominator, in lowest terms. */
export type Ratio = { readonly n: bigint; readonly d: bigint }

/** The unit codes that entries may carry; SPEC L10 gives their UCUM codes. */
export const UNITS = [
  'in',
  'ft',
  'mm',
  'm',
  'ft2',
  'm2',
  'yd3',
  'm3',
  'gal',
  'L',
  'fl-oz',
  'mL',
  'min',
  'h',
  'degF',
  'degC',
  'pct',
  'psi',
  'MPa',
  'mph',
  'km/h',
  'm/s',
  'mi',
  'km',
  'lb',
  'kg',
  'lb/yd3',
  'kg/m3',
  'lb/ft3',
  'one',
] as const
export type Unit = (typeof UNITS)[number]
export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'time'
  | 'temperature'
  | 'share'
  | 'pressure'
  | 'speed'
  | 'mass'
  | 'density'
  | 'number'

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

const FOOT = ratio(3_048n, 10_000n)
const INCH = ratio(254n, 10_000n)
const MILE = ratio(1_609_344n, 1_000n)
/** 0.453 592 37 kg, exact. */
const POUND = ratio(45_359_237n, 100_000_000n)
const YARD3 = ratio(27n * 3_048n ** 3n, 10_000n ** 3n)
/** 231 cubic inches. */
const GALLON = ratio(231n * 254n ** 3n, 10_000n ** 3n)
const HOUR = ratio(3_600n)
/** Pound-force per square inch in pascals: the pound at 9.806 65 m/s² on a square inch. */
const PSI = over(times(POUND, ratio(980_665n, 100_000n)), times(INCH, INCH))

/**
 * Size of one unit in SI, and for temperatures what is taken off first. Units of SI: metre, square and cubic metre,
 * second, kelvin above 0 °C, pascal, metre per second, kilogram, kilogram per cubic metre; a share and a number have one.
 * Source: NIST SP 811 (2008), Appendix B.8 and B.9; all exact.
 */
const SI: Record<Unit, { dimension: Dimension; size: Ratio; zero?: Ratio }> = {
  in: { dimension: 'length', size: INCH },
  ft: { dimension: 'length', size: FOOT },
  mm: { dimension: 'length', size: ratio(1n, 1_000n) },
  m: { dimension: 'length', size: ratio(1n) },
  mi: { dimension: 'length', size: MILE },
  km: { dimension: 'length', size: ratio(1_000n) },
  ft2: { dimension: 'area', size: times(FOOT, FOOT) },
  m2: { dimension: 'area', size: ratio(1n) },
  yd3: { dimension: 'volume', size: YARD3 },
  m3: { dimension: 'volume', size: ratio(1n) },
  gal: { dimension: 'volume', size: GALLON },
  L: { dimension: 'volume', size: ratio(1n, 1_000n) },
  'fl-oz': { dimension: 'volume', size: over(GALLON, ratio(128n)) },
  mL: { dimension: 'volume', size: ratio(1n, 1_000_000n) },
  min: { dimension: 'time', size: ratio(60n) },
  h: { dimension: 'time', size: HOUR },
  degF: { dimension: 'temperature', size: ratio(5n, 9n), zero: ratio(32n) },
  degC: { dimension: 'temperature', size: ratio(1n) },
  pct: { dimension: 'share', size: ratio(1n, 100n) },
  psi: { dimension: 'pressure', size: PSI },
  MPa: { dimension: 'pressure', size: ratio(1_000_000n) },
  mph: { dimension: 'speed', size: over(MILE, HOUR) },
  'km/h': { dimension: 'speed', size: ratio(1_000n, 3_600n) },
  'm/s': { dimension: 'speed', size: ratio(1n) },
  lb: { dimension: 'mass', size: POUND },
  kg: { dimension: 'mass', size: ratio(1n) },
  'lb/yd3': { dimension: 'density', size: over(POUND, YARD3) },
  'kg/m3': { dimension: 'density', size: ratio(1n) },
  'lb/ft3': { dimension: 'density', size: over(POUND, times(FOOT, times(FOOT, FOOT))) },
  one: { dimension: 'number', size: ratio(1n) },
}

export const dimensionOf = (unit: Unit): Dimension => SI[unit].dimension

/** Size of one unit in SI, exact, and for temperatures what is taken off first. */
export const sizeOf = (unit: Unit): { readonly size: Ratio; readonly zero?: Ratio } => SI[unit]

/** Text that a quantity may have: digits with or without a point, or whole and fraction (`4 1/4`, `3/8`). */
export const QUANTITY_TEXT = /^(?:\d{1,7}(?:\.\d{1,6})?|(?:\d{1,7} )?\d{1,4}\/[1-9]\d{0,3})$/

/** The same with a sign, for what may lie below zero: temperatures. */
export const SIGNED_TEXT = /^-?\d{1,4}(?:\.\d{1,3})?$/

/** The exact number in a quantity's text. Fails: `quantity-text`. */
export const readNumber = (text: string): Result<Ratio, 'quantity-text'> => {
  if (!QUANTITY_TEXT.test(text) && !SIGNED_TEXT.test(text)) return fail('quantity-text', '', { text })
  if (text.startsWith('-')) {
    const size = readNumber(text.slice(1))
    return size.ok ? ok(minus(ratio(0n), size.value)) : size
  }
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
  const from = SI[quantity.unit]
  const to = SI[unit]
  const si = times(minus(number.value, from.zero ?? ratio(0n)), from.size)
  return ok(plus(over(si, to.size), to.zero ?? ratio(0n)))
}

/**
 * A number in digits: at most `digits` after the point, rounded half away from zero, without trailing zeros.
 * What is shown to people; never signed and never read back.
 */
export const showNumber = (number: Ratio, digits = 2): string =>
  digits > 0 ? showFixed(number, digits).replace(/\.?0+$/, '') : showFixed(number, 0)

/** The same with exactly so many digits after the point: ratios are read in columns. */
export const showFixed = (number: Ratio, digits: number): string => {
  const scale = 10n ** BigInt(digits)
  const size = number.n < 0n ? -number.n : number.n
  const rounded = (size * scale * 2n + number.d) / (number.d * 2n)
  const part = digits > 0 ? `.${(rounded % scale).toString().padStart(digits, '0')}` : ''
  return `${number.n < 0n && rounded !== 0n ? '-' : ''}${rounded / scale}${part}`
}
