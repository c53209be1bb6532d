import { type Item, isTerm } from './items.ts'
import type { Numeral } from './numerals.ts'
import { FRACTIONS } from './vocabulary/number-words.ts'
import type { Term } from './vocabulary/term.ts'

/** A number or a range where it stands in the sentence, with the unit said after it. */
export type Amount = {
  /** First item, and the item after the last one that belongs to it. */
  readonly at: number
  readonly end: number
  readonly seg: number
  readonly run: readonly Numeral[]
  readonly upTo?: readonly Numeral[]
  readonly unit?: Term
  /** The joiner of a range was `or`, or a word of doubt stands before the number. */
  readonly approx: boolean
  /** Split off by where a unit or a word after it would fit: a digit may belong to its neighbour. */
  readonly split?: true
}

const UNITS: readonly Term[] = [
  'u-4x8',
  'u-6x12',
  'u-yd',
  'u-gal',
  'u-l',
  'u-m3',
  'u-in',
  'u-cm',
  'u-pct',
  'u-degc',
  'u-deg',
  'u-mph',
  'u-kmh',
  'u-min',
  'u-hour',
  'u-ft',
  'u-psi',
  'u-lbft3',
  'gallon-a-yard',
  'cylinders',
  'number-bar',
  'foreign',
]
const BETWEEN_UNIT = new Set([
  'even',
  'flat',
  'more',
  'mas',
  'full',
  'good',
  'whole',
  'solid',
  'cubic',
  'total',
  'of',
  'de',
  'test',
  'strong',
  'extra',
  'otros',
  'square',
  'little',
  'big',
])

const unitOf = (item: Item | undefined): Term | undefined =>
  item?.is === 'term' ? UNITS.find((unit) => item.terms.has(unit)) : undefined

/** All numbers of a sentence with their units, in order. */
export const readAmounts = (items: readonly Item[]): Amount[] => {
  const amounts: Amount[] = []
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!
    if (item.is !== 'num') continue
    const amount = readAmount(items, i)
    amounts.push(...splitAtUnit(items, amount))
    i = amount.end - 1
  }
  return amounts
}

const readAmount = (items: readonly Item[], i: number): Amount => {
  const item = items[i] as Item & { is: 'num' }
  let end = i + 1
  let run = item.run
  let upTo: readonly Numeral[] | undefined
  let approx =
    isTerm(items[i - 1], 'approx', 'by') ||
    (isTerm(items[i - 1], 'a', 'the', 'at') && isTerm(items[i - 2], 'approx', 'by-eye'))
  // The first unit may stand inside the range: four inches to five inches.
  const inner = unitOf(items[end])
  const joiner = inner && isTerm(items[end + 1], 'to-or') ? end + 1 : end
  const other = items[joiner + 1]
  const between = /between|^entre$/.test(wordOf(items[i - 1]) ?? '') && isTerm(items[joiner], 'and')
  if (
    other?.is === 'num' &&
    (isTerm(items[joiner], 'to-or') || between) &&
    rangeable(run) &&
    rangeable(other.run.slice(0, 1))
  ) {
    upTo = other.run
    approx = approx || isTerm(items[joiner], 'to-or') === isOr(items[joiner])
    end = joiner + 2
  }
  let at = end
  while (at < end + 2 && items[at] && wordOf(items[at]) !== undefined && BETWEEN_UNIT.has(wordOf(items[at])!))
    at += 1
  const unit = unitOf(items[at])
  if (unit) {
    end = at + 1
    // `nueve yardas y media`, `four inches and a half`.
    const tail = isTerm(items[end], 'and') ? (isTerm(items[end + 1], 'a') ? end + 2 : end + 1) : undefined
    const part = tail === undefined ? undefined : FRACTIONS.get(wordOf(items[tail]) ?? '')
    const last = run.at(-1)!
    if (part !== undefined && last.digits !== undefined && !upTo) {
      run = [
        ...run.slice(0, -1),
        { value: last.value + part, is: 'fraction', whole: last.value, from: last.from, to: last.to },
      ]
      end = tail! + 1
    }
  }
  if (
    isTerm(items[end], 'approx') &&
    /^(?:or so|ish|and change|y pico|give or take|mas o menos|strong)$/.test(wordOf(items[end]) ?? '')
  )
    approx = true
  return {
    at: i,
    end,
    seg: item.seg,
    run,
    ...(upTo ? { upTo } : {}),
    ...(unit ? { unit } : {}),
    approx: approx || run.some((n) => n.is === 'about'),
  }
}

const isOr = (item: Item | undefined): boolean => wordOf(item) === 'or' || wordOf(item) === 'o'
const rangeable = (run: readonly Numeral[]): boolean => run.length >= 1

export const wordOf = (item: Item | undefined): string | undefined =>
  item?.is === 'word' || item?.is === 'term' ? item.text : undefined

/**
 * A long row before a unit holds two things: `truck two eighteen eight yards` without a pause. The last number has the unit;
 * what stands before it goes on by itself. Digits that ran together are parted where the yards can be no more than a drum holds.
 */
const splitAtUnit = (items: readonly Item[], amount: Amount): Amount[] => {
  const { run, unit, upTo } = amount
  if (!unit) return [amount]
  if (upTo) {
    if (run.length === 1) return [amount]
    const { unit: _, upTo: __, ...head } = amount
    return [
      { ...head, end: amount.at + 1, run: run.slice(0, -1), approx: false },
      { ...amount, run: run.slice(-1) },
    ]
  }
  if (run.length === 1) {
    const only = run[0]!
    const glued = unit === 'u-yd' && only.value > 14 && String(only.whole ?? only.digits ?? '').length >= 4
    return glued ? gluedDigits(amount, only) : [amount]
  }
  if (unit === 'u-lbft3' || unit === 'u-psi') return [amount]
  if (unit === 'u-pct' && run.length === 2 && run.every((n) => n.is === 'digit')) return [amount]
  if (unit === 'u-hour' || unit === 'foreign') return [amount]
  const code = isTerm(items[amount.at - 1], 'truck', 'ticket') || run.length > 2
  const { unit: _, ...head } = amount
  return [
    { ...head, end: amount.at + 1, run: run.slice(0, -1), approx: false },
    { ...amount, run: run.slice(-1), ...(code ? {} : { split: true as const }) },
  ]
}

const gluedDigits = (amount: Amount, only: Numeral): Amount[] => {
  const whole = String(only.whole ?? only.digits)
  const part = only.whole === undefined ? 0 : only.value - only.whole
  const tail = /1[0-2]$/.test(whole) && whole.length > 6 ? 2 : 1
  const code = whole.slice(0, -tail)
  const yards = Number(whole.slice(-tail))
  if (yards + part <= 0) return [amount]
  const { unit: _, ...head } = amount
  return [
    {
      ...head,
      end: amount.at + 1,
      run: [{ value: Number(code), digits: code, is: 'digits', from: only.from, to: only.to }],
      split: true,
    },
    {
      ...amount,
      run: [
        {
          value: yards + part,
          is: part > 0 ? 'fraction' : 'digits',
          ...(part > 0 ? { whole: yards } : { digits: String(yards) }),
          from: only.from,
          to: only.to,
        },
      ],
      split: true,
    },
  ]
}

/** A row as one size: the only number, or a decimal said in two digits (`six four`, `one forty-four point six`). */
export const sizeOf = (run: readonly Numeral[]): number | undefined => {
  if (run.length === 1) return run[0]!.value
  if (run.length === 2) {
    const [a, b] = run as [Numeral, Numeral]
    // One forty-four point six: a hundred and more, said in pairs.
    if (a.is === 'digit' && a.value > 0 && b.value >= 10 && b.value < 100) return a.value * 100 + b.value
    if (a.digits !== undefined && b.is === 'digit') return Number(`${a.value}.${b.value}`)
  }
  if (run.length === 3) {
    const [a, b, c] = run as [Numeral, Numeral, Numeral]
    if (a.is === 'digit' && b.value >= 10 && b.value < 100 && c.is === 'digit')
      return a.value * 100 + b.value + c.value / 10
    if (a.is === 'digit' && b.value === 0) return a.value * 100 + c.value
  }
  return undefined
}

/** A row as the digits of a ticket or a truck: `two eighteen` is 218, `seven one three four oh` 71340. */
export const codeOf = (run: readonly Numeral[]): string | undefined => {
  if (run.some((n) => n.digits === undefined || n.is === 'about')) return undefined
  return run.map((n) => n.digits).join('')
}
