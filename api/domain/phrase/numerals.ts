import type { Token } from './tokens.ts'
import { FRACTIONS, NUMBER_WORDS, SPANISH_NUMBERS } from './vocabulary/number-words.ts'

/**
 * One number as it was said, before anybody knows what of: `four and a half`, `eighteen`, `7:05`. A ticket of five digits is
 * five of them in a row; what a row means depends on what it is the number of.
 */
export type Numeral = {
  readonly value: number
  /** The digits of a whole number, with leading zeros; absent of a fraction or decimal. */
  readonly digits?: string
  readonly is: 'digit' | 'teen' | 'tens' | 'compound' | 'fraction' | 'decimal' | 'clock' | 'digits' | 'about'
  /** The whole number before a fraction, for `siete y cuarto` on a clock. */
  readonly whole?: number
  readonly from: number
  readonly to: number
}

const GLYPHS: Readonly<Record<string, number>> = {
  '¼': 1 / 4,
  '½': 1 / 2,
  '¾': 3 / 4,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
}

const word = (tokens: readonly Token[], i: number): string | undefined => {
  const token = tokens[i]
  return token?.is === 'word' ? token.text : undefined
}

/** The number that starts at a token, with the token after it; undefined where none does. */
export const readNumeral = (tokens: readonly Token[], i: number): Numeral | undefined => {
  const token = tokens[i]
  if (!token || token.is === 'mark') return undefined
  if (token.is === 'digits') return readDigits(tokens, i)
  return readWords(tokens, i)
}

const readDigits = (tokens: readonly Token[], i: number): Numeral | undefined => {
  const { text } = tokens[i]!
  if (text.includes(':')) return { value: 0, is: 'clock', from: i, to: i + 1 }
  const glyph = GLYPHS[text.at(-1)!]
  if (glyph !== undefined) {
    const whole = text.length > 1 ? Number(text.slice(0, -1)) : 0
    return { value: whole + glyph, is: 'fraction', whole, from: i, to: i + 1 }
  }
  const fraction = fractionOf(text)
  if (fraction !== undefined) return { value: fraction, is: 'fraction', whole: 0, from: i, to: i + 1 }
  if (text.includes('.')) return { value: Number(text), is: 'decimal', from: i, to: i + 1 }
  const whole = Number(text)
  const part = fractionOf(tokens[i + 1]?.text ?? '')
  if (part !== undefined && tokens[i + 1]?.is === 'digits')
    return { value: whole + part, is: 'fraction', whole, from: i, to: i + 2 }
  const tail = fractionTail(tokens, i + 1)
  if (tail) return { value: whole + tail.value, is: 'fraction', whole, from: i, to: tail.to }
  return { value: whole, digits: text, is: 'digits', from: i, to: i + 1 }
}

const fractionOf = (text: string): number | undefined => {
  const match = /^(\d{1,3})\/(\d{1,3})$/.exec(text)
  if (!match) return undefined
  const below = Number(match[2])
  return below === 0 ? undefined : Number(match[1]) / below
}

const ENGLISH_ONCE = /^(?:we|i|it|he|she|they|you|the|upon|again|more|a|in|that|this|over)$/

/** `once` is eleven but where English says it. */
const isNumber = (tokens: readonly Token[], i: number): boolean => {
  const text = word(tokens, i)
  if (text === undefined || !NUMBER_WORDS.has(text)) return false
  if (text !== 'once') return true
  const after = word(tokens, i + 1)
  const before = word(tokens, i - 1)
  if (after !== undefined && /^(?:yardas?|galones|grados|millas|minutos|pulgadas)$/.test(after)) return true
  if (after !== undefined && ENGLISH_ONCE.test(after)) return false
  return before !== undefined && !/^(?:at|just|only|than|more|not|s|least)$/.test(before)
}

const readWords = (tokens: readonly Token[], i: number): Numeral | undefined => {
  const text = word(tokens, i)!
  if (text === 'point' || text === 'punto') return readDecimalTail(tokens, i, 0, i)
  if (text === 'couple' || text === 'par') {
    const of = word(tokens, i + 1)
    return { value: 2, is: 'about', from: i, to: of === 'of' || of === 'de' ? i + 2 : i + 1 }
  }
  if (text === 'dozen' || text === 'docena')
    return { value: 12, digits: '12', is: 'teen', from: i, to: i + 1 }
  if (text === 'three' || text === 'tres') {
    const of = FRACTIONS.get(word(tokens, i + 1) ?? '')
    if (of === 1 / 4 && /s$/.test(word(tokens, i + 1)!))
      return { value: 3 / 4, is: 'fraction', whole: 0, from: i, to: i + 2 }
  }
  const hundred = text === 'a' || text === 'one' ? word(tokens, i + 1) === 'hundred' : false
  if (!hundred && !isNumber(tokens, i)) return undefined
  const whole = readWhole(tokens, i)
  const decimal = readDecimalTail(tokens, whole.to, whole.value, i)
  if (decimal) return decimal
  const tail = fractionTail(tokens, whole.to)
  if (tail)
    return { value: whole.value + tail.value, is: 'fraction', whole: whole.value, from: i, to: tail.to }
  return whole
}

/** A cardinal: `forty-one`, `two hundred eighteen`, `forty-five hundred`, `doscientos dieciocho`. */
const readWhole = (tokens: readonly Token[], i: number): Numeral => {
  let at = i
  let value = 0
  let is: Numeral['is'] = 'compound'
  const first =
    word(tokens, at) === 'a' ? { value: 1, is: 'digit' as const } : NUMBER_WORDS.get(word(tokens, at)!)!
  at += 1
  value = first.value
  if (first.is === 'hundreds') {
    const rest = belowHundred(tokens, at)
    return finish(value + (rest?.value ?? 0), 'compound', i, rest?.to ?? at)
  }
  if (first.is === 'hundred' || first.is === 'thousand') {
    const rest = belowThousand(tokens, at)
    return finish(
      value + (first.is === 'thousand' ? (rest?.value ?? 0) : 0),
      'compound',
      i,
      first.is === 'thousand' ? (rest?.to ?? at) : at,
    )
  }
  const low = belowHundred(tokens, i) ?? { value, to: at }
  value = low.value
  at = low.to
  is = first.is === 'tens' && low.to > i + 1 ? 'compound' : (first.is as 'digit' | 'teen' | 'tens')
  const scale = NUMBER_WORDS.get(word(tokens, at) ?? '')
  if (scale?.is === 'hundred') {
    at += 1
    const after = word(tokens, at) === 'and' ? at + 1 : at
    const rest = belowHundred(tokens, after)
    // `four hundred and a half` is no hundred-and-something: the tail is a fraction.
    return rest
      ? finish(value * 100 + rest.value, 'compound', i, rest.to)
      : finish(value * 100, 'compound', i, at)
  }
  if (scale?.is === 'thousand') {
    const rest = belowThousand(tokens, at + 1)
    return finish(value * 1000 + (rest?.value ?? 0), 'compound', i, rest?.to ?? at + 1)
  }
  return finish(value, is, i, at)
}

const finish = (value: number, is: Numeral['is'], from: number, to: number): Numeral => ({
  value,
  digits: String(value),
  is,
  from,
  to,
})

type Low = { value: number; to: number }

const belowHundred = (tokens: readonly Token[], i: number): Low | undefined => {
  const text = word(tokens, i)
  const first =
    text === 'a' && word(tokens, i + 1) === 'hundred'
      ? ({ value: 1, is: 'digit' } as const)
      : text === undefined || !isNumber(tokens, i)
        ? undefined
        : NUMBER_WORDS.get(text)
  if (!first || (first.is !== 'digit' && first.is !== 'teen' && first.is !== 'tens')) return undefined
  if (first.is !== 'tens') return { value: first.value, to: i + 1 }
  // English puts the unit straight after, Spanish after `y`; zero is a digit of its own.
  const spanish = SPANISH_NUMBERS.has(text!)
  const at = spanish && word(tokens, i + 1) === 'y' ? i + 2 : i + 1
  const unit = NUMBER_WORDS.get(word(tokens, at) ?? '')
  const fits =
    unit?.is === 'digit' &&
    unit.value > 0 &&
    (spanish ? at === i + 2 : !SPANISH_NUMBERS.has(word(tokens, at)!))
  return fits ? { value: first.value + unit.value, to: at + 1 } : { value: first.value, to: i + 1 }
}

const belowThousand = (tokens: readonly Token[], i: number): Low | undefined => {
  const first = NUMBER_WORDS.get(word(tokens, i) ?? '')
  if (first?.is === 'hundreds') {
    const rest = belowHundred(tokens, i + 1)
    return { value: first.value + (rest?.value ?? 0), to: rest?.to ?? i + 1 }
  }
  const low = belowHundred(tokens, i)
  if (!low || NUMBER_WORDS.get(word(tokens, low.to) ?? '')?.is !== 'hundred') return undefined
  const rest = belowHundred(tokens, low.to + 1)
  return { value: low.value * 100 + (rest?.value ?? 0), to: rest?.to ?? low.to + 1 }
}

/** `point two`, `punto dos`, `point oh five`: digits one by one. */
const readDecimalTail = (
  tokens: readonly Token[],
  at: number,
  whole: number,
  from: number,
): Numeral | undefined => {
  const point = word(tokens, at)
  if (point !== 'point' && point !== 'punto' && point !== 'coma') return undefined
  let digits = ''
  let i = at + 1
  for (; digits.length < 3; i++) {
    const token = tokens[i]
    const value =
      token?.is === 'digits' && /^\d$/.test(token.text)
        ? Number(token.text)
        : NUMBER_WORDS.get(word(tokens, i) ?? '')
    const digit = typeof value === 'number' ? value : value?.is === 'digit' ? value.value : undefined
    if (digit === undefined) break
    digits += String(digit)
    // One digit is the habit; a second belongs only after a zero (`point oh five`).
    if (digits.length === 1 && digit !== 0) {
      i += 1
      break
    }
  }
  return digits === '' ? undefined : { value: Number(`${whole}.${digits}`), is: 'decimal', from, to: i }
}

/** `and a half`, `an a quarter`, `and three quarters`, `y medio`, `y tres cuartos`; not `and a half hour`. */
export const fractionTail = (tokens: readonly Token[], i: number): Low | undefined => {
  const joiner = word(tokens, i)
  // `eight a half`: the and went missing.
  if (
    joiner === 'a' &&
    /^(?:half|quarter)$/.test(word(tokens, i + 1) ?? '') &&
    !/^(?:yard|inch|hour|gallon|mile|minute|of|hours)$/.test(word(tokens, i + 2) ?? '')
  )
    return { value: FRACTIONS.get(word(tokens, i + 1)!)!, to: i + 2 }
  if (joiner !== 'and' && joiner !== 'an' && joiner !== 'n' && joiner !== 'y' && joiner !== 'in')
    return undefined
  let at = i + 1
  let times = 1
  const next = tokens[at]
  if (next?.is === 'digits') {
    const part = fractionOf(next.text)
    return part === undefined ? undefined : { value: part, to: at + 1 }
  }
  const text = word(tokens, at) ?? ''
  if (text === 'a' || text === 'an' || text === 'uh' || text === 'un' || text === 'una') at += 1
  else {
    const count = NUMBER_WORDS.get(text)
    if (count?.is === 'digit' && count.value > 0) {
      times = count.value
      at += 1
    } else if (joiner === 'in') return undefined
  }
  const part = FRACTIONS.get(word(tokens, at) ?? '')
  if (part === undefined || times * part >= 1) return undefined
  // `and quarters` has lost its three.
  if (times === 1 && /s$/.test(word(tokens, at)!)) return undefined
  // `y cuarto` and `and a half` stand alone; `and quarter` needs its article.
  return { value: times * part, to: at + 1 }
}
