import { type Amount, codeOf, sizeOf } from './amounts.ts'
import type { FactKind, FactUnit } from './facts.ts'
import type { Draft } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'

/** Sizes that are plain for each kind; what lies outside is not read as that kind. Source: common practice, no source. */
const PLAIN: Readonly<Partial<Record<FactKind, readonly [number, number]>>> = {
  'reading.slump': [0, 11],
  'reading.slump_flow': [12, 36],
  'reading.air': [0.5, 19],
  'reading.concrete_temperature': [33, 115],
  'reading.air_temperature': [-20, 120],
  'reading.wind': [0, 60],
  'reading.humidity': [3, 100],
  'reading.cylinders': [0, 24],
  'reading.density': [90, 165],
  'load.volume': [0.2, 14],
  'load.water_added': [0, 60],
}

const USUAL: Readonly<Partial<Record<FactKind, FactUnit>>> = {
  'reading.slump': 'in',
  'reading.slump_flow': 'in',
  'reading.air': '%',
  'reading.concrete_temperature': 'degF',
  'reading.air_temperature': 'degF',
  'reading.wind': 'mph',
  'reading.humidity': '%RH',
  'reading.cylinders': 'count',
  'reading.density': 'lb/ft3',
  'load.volume': 'yd3',
  'load.water_added': 'gal',
}

const SAID: Readonly<Partial<Record<Term, FactUnit>>> = {
  'u-in': 'in',
  'u-pct': '%',
  'u-deg': 'degF',
  'u-degc': 'degC',
  'u-mph': 'mph',
  'u-kmh': 'km/h',
  'u-gal': 'gal',
  'u-l': 'L',
  'u-yd': 'yd3',
  'u-m3': 'm3',
  'u-lbft3': 'lb/ft3',
}

const FITS: Readonly<Partial<Record<FactKind, readonly FactUnit[]>>> = {
  'reading.slump': ['in'],
  'reading.slump_flow': ['in'],
  'reading.air': ['%'],
  'reading.concrete_temperature': ['degF', 'degC'],
  'reading.air_temperature': ['degF', 'degC'],
  'reading.wind': ['mph', 'km/h'],
  'reading.humidity': ['%'],
  'reading.density': ['lb/ft3'],
  'load.volume': ['yd3', 'm3'],
  'load.water_added': ['gal', 'L'],
}

const inPlain = (kind: FactKind, value: number, unit: FactUnit | undefined): boolean => {
  const range = PLAIN[kind]
  if (!range) return true
  if (unit === 'degC') return value >= -20 && value <= 45
  if (unit === 'L') return value <= 230
  return value >= range[0] && value <= range[1]
}

const round = (value: number): number => Math.round(value * 10_000) / 10_000

/**
 * The amount as a reading of a kind, or undefined where unit or size don't fit it.
 * A range keeps both ends; a number with no unit word has the kind's usual one and says so.
 */
export const asReading = (kind: FactKind, amount: Amount): Draft | undefined => {
  // Degrees that no concrete has in °F are °C, and asked.
  const [only] = amount.run
  if (
    kind === 'reading.concrete_temperature' &&
    amount.unit === 'u-deg' &&
    !amount.upTo &&
    amount.run.length === 1 &&
    only!.value >= 5 &&
    only!.value < 33
  )
    return { kind, value: round(only!.value), unit: 'degC', low_confidence: true }
  const saidUnit = amount.unit === undefined ? undefined : SAID[amount.unit]
  const counts = kind === 'reading.cylinders'
  if (amount.unit !== undefined && !counts) {
    if (saidUnit === undefined || !FITS[kind]?.includes(saidUnit)) return undefined
  }
  const unit = saidUnit === undefined || kind === 'reading.humidity' ? USUAL[kind] : saidUnit
  const value = sizeFor(kind, amount)
  if (value === undefined) return undefined
  const draft: Draft = { kind }
  if (Array.isArray(value)) {
    const [min, max] = value as [number, number]
    if (!(min < max) || !inPlain(kind, min, unit) || !inPlain(kind, max, unit)) return undefined
    draft.min = round(min)
    draft.max = round(max)
  } else {
    if (!inPlain(kind, value as number, unit)) return undefined
    draft.value = round(value as number)
  }
  if (unit !== undefined) draft.unit = unit
  if (saidUnit === undefined && !counts) draft.unit_assumed = true
  if (amount.approx) draft.approx = true
  if (amount.split) draft.low_confidence = true
  return draft
}

const sizeFor = (kind: FactKind, { run, upTo }: Amount): number | number[] | undefined => {
  if (upTo) {
    const low = sizeOf(run)
    const high = sizeOf(upTo)
    return low === undefined || high === undefined ? undefined : [low, high]
  }
  if (run.length === 1) return run[0]!.value
  const pair = run.length === 2 && run.every((n) => n.is === 'digit')
  // `four five` of a slump is four to five, or four and a half said badly: the caller asks.
  if (kind === 'reading.slump')
    return pair && run[0]!.value < run[1]!.value ? [run[0]!.value, run[1]!.value] : undefined
  // Air is said in tenths, two digits; of the rest only a hundred and more is said in pairs.
  if (kind === 'reading.air') return pair ? sizeOf(run) : undefined
  if (kind === 'reading.density') return sizeOf(run)
  // `ten sixty-three`: the word temp, misheard as ten.
  if (kind === 'reading.concrete_temperature' && run.length === 2 && run[0]!.value === 10)
    return run[1]!.value
  if (/temperature$/.test(kind))
    return sizeOf(run) !== undefined && sizeOf(run)! >= 100 ? sizeOf(run) : undefined
  return undefined
}

/** The amount as a ticket's number: three to nine digits. */
export const asTicket = (amount: Amount): Draft | undefined => {
  const digits = amount.unit || amount.upTo ? undefined : codeOf(amount.run)
  return digits && digits.length >= 3 && digits.length <= 9
    ? // Most supply five digits or more: of a shorter number a digit may have been lost on the way.
      { kind: 'load.ticket', value: digits, ...(digits.length < 5 ? { low_confidence: true as const } : {}) }
    : undefined
}

/** The amount as a truck's number: one to four digits. */
export const asTruck = (amount: Amount): Draft | undefined => {
  const digits = amount.unit || amount.upTo ? undefined : codeOf(amount.run)
  return digits && digits.length >= 1 && digits.length <= 4 && !/^0+$/.test(digits)
    ? { kind: 'load.truck', value: digits }
    : undefined
}
