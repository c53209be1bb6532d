import { type Numeral, readNumeral } from './numerals.ts'
import type { Token } from './tokens.ts'
import { FRACTIONS } from './vocabulary/number-words.ts'

/** A time of day as said; the hour is absent of `ten till`, the half of the day where nobody said it. */
export type Clock = {
  readonly hour?: number
  readonly minute: number
  readonly half?: 'am' | 'pm' | '24h'
  readonly approx?: true
  /** So seldom said like this that a word may have been lost. */
  readonly odd?: true
}
export type ClockAt = Clock & { readonly to: number }

const AFTER = new Set(['after', 'past', 'pasadas'])
const TILL = new Set(['till', 'to', 'of', 'before', 'until', 'para'])
const HOURLESS_BEFORE = new Set([
  'at',
  'by',
  'around',
  'about',
  'pouring',
  'placing',
  'started',
  'here',
  'right',
  'just',
  'like',
  'in',
  'up',
  'a',
  'site',
  'job',
  'empty',
  'arrived',
  'left',
  'out',
  'it',
  'done',
  'dumping',
  'unloading',
])

const text = (tokens: readonly Token[], i: number): string => tokens[i]?.text ?? ''
const ends = (tokens: readonly Token[], i: number): boolean => !tokens[i] || tokens[i]!.is === 'mark'
const plainHour = (n: Numeral | undefined): boolean =>
  n?.digits !== undefined && n.digits.length <= 2 && n.value >= 1 && n.value <= 12

/** A time of day that can be nothing else, by its own words: `twenty after eight`, `a las siete y cuarto`, `7:05`. */
export const readClock = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  const clock =
    clockWords(tokens, i) ?? colon(tokens, i) ?? english(tokens, i) ?? spanish(tokens, i) ?? marked(tokens, i)
  return clock && withHalf(tokens, clock)
}

const clockWords = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  const first = text(tokens, i)
  if (first === 'noon' || first === 'mediodia') return { hour: 12, minute: 0, half: '24h', to: i + 1 }
  if (first === 'midnight' || first === 'medianoche') return { hour: 0, minute: 0, half: '24h', to: i + 1 }
  const hourAt =
    text(tokens, i + 1) === 'of' && text(tokens, i + 2) === 'the' && text(tokens, i + 3) === 'hour'
  if (hourAt && first === 'top') return { minute: 0, to: i + 4 }
  if (hourAt && first === 'bottom') return { minute: 30, to: i + 4 }
  return undefined
}

const colon = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  const match = /^(\d{1,2}):(\d{2})$/.exec(text(tokens, i))
  if (!match || Number(match[1]) > 23 || Number(match[2]) > 59) return undefined
  const full = match[1]!.startsWith('0') || Number(match[1]) > 12
  return {
    hour: Number(match[1]),
    minute: Number(match[2]),
    ...(full ? { half: '24h' as const } : {}),
    to: i + 1,
  }
}

/** `twenty after eight`, `quarter of two`, `half past ten`, `ten till`. */
const english = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  const part = minutesPart(tokens, i)
  if (!part) return undefined
  const joiner = text(tokens, part.to)
  const later = AFTER.has(joiner)
  // `cuarto las nueve`: para went missing.
  const lost = /^las?$/.test(joiner) && part.minute % 5 === 0
  if (!later && !lost && !TILL.has(joiner)) return undefined
  const spanish = joiner === 'para' || lost
  let at = lost ? part.to : part.to + 1
  if (spanish && /^las?$/.test(text(tokens, at))) at += 1
  const one = spanish && text(tokens, at) === 'una'
  const hour: Numeral | undefined = one
    ? { value: 1, digits: '1', is: 'digit', from: at, to: at + 1 }
    : readNumeral(tokens, at)
  // `four to five` may be a range; only minutes in fives, or a quarter, make it a clock by themselves.
  const round = part.word || (part.minute % 5 === 0 && part.minute > 0 && part.minute < 30)
  const sure = later || joiner === 'till' || spanish || part.word || (joiner === 'of' && round)
  if (hour && plainHour(hour)) {
    if (!sure || part.minute > 59) return undefined
    // `ten after nine thirty`: the thirty belongs to the nine.
    if (readNumeral(tokens, hour.to) !== undefined || isUnit(tokens, hour.to)) return undefined
    return later
      ? { hour: hour.value, minute: part.minute, to: hour.to }
      : { hour: hour.value === 1 ? 12 : hour.value - 1, minute: 60 - part.minute, to: hour.to }
  }
  const open = joiner === 'till' || joiner === 'past' || HOURLESS_BEFORE.has(text(tokens, i - 1))
  if (!round || !open || !ends(tokens, part.to + 1) || joiner === 'of') return undefined
  return { minute: later ? part.minute : 60 - part.minute, to: part.to + 1 }
}

const isUnit = (tokens: readonly Token[], i: number): boolean =>
  /^(?:yards?|gallons?|inch|inches|feet|foot|percent|degrees|minutes?|yardas?|galones|pulgadas|grados)$/.test(
    text(tokens, i),
  )

const minutesPart = (
  tokens: readonly Token[],
  i: number,
): { minute: number; word: boolean; to: number } | undefined => {
  let at = i
  if (/^(?:a|un)$/.test(text(tokens, at))) at += 1
  const fraction = text(tokens, at)
  if (fraction === 'quarter' || fraction === 'cuarto') return { minute: 15, word: true, to: at + 1 }
  if (fraction === 'half' && text(tokens, at + 1) === 'past') return { minute: 30, word: true, to: at + 1 }
  if (at !== i) return undefined
  const number = readNumeral(tokens, i)
  if (number?.digits === undefined || number.value < 1 || number.value > 59) return undefined
  const minutes = /^(?:minutes?|minutos?)$/.test(text(tokens, number.to)) ? number.to + 1 : number.to
  return { minute: number.value, word: minutes > number.to && AFTER.has(text(tokens, minutes)), to: minutes }
}

/** `a las siete y cuarto`, `las ocho menos diez`, `faltan veinte para las nueve`, `a la una`. */
const spanish = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  if (/^faltan?$/.test(text(tokens, i)) || text(tokens, i) === 'faltando') {
    const part = english(tokens, i + 1)
    return part && text(tokens, part.to - 1) !== '' ? part : undefined
  }
  if (text(tokens, i) === 'a' && /^las?$/.test(text(tokens, i + 1))) return spanish(tokens, i + 1)
  // `a ocho menos diez`, `a doce y media`: las went missing.
  const bare = text(tokens, i) === 'a' ? readNumeral(tokens, i + 1) : undefined
  if (bare && plainHour(bare)) {
    const menos = text(tokens, bare.to) === 'menos' && readNumeral(tokens, bare.to + 1) !== undefined
    if (menos || (text(tokens, bare.to) === 'y' && text(tokens, bare.to + 1) === 'media'))
      return spanishTail(tokens, bare.value, bare.to)
  }
  const one = text(tokens, i) === 'una' && /^(?:de|a|desde|hasta)$/.test(text(tokens, i - 1))
  if (one && /^(?:y|a)$/.test(text(tokens, i + 1))) return spanishTail(tokens, 1, i + 1)
  const las = /^las?$/.test(text(tokens, i))
  if (!las) return undefined
  if (text(tokens, i) === 'la' && !/^(?:una|1)$/.test(text(tokens, i + 1))) return undefined
  if (text(tokens, i) === 'la') return spanishTail(tokens, 1, i + 2)
  const before = english(tokens, i + 1)
  if (before) return before
  const hour = readNumeral(tokens, i + 1)
  if (!hour) return undefined
  if (hour.is === 'fraction' && hour.whole !== undefined && hour.whole >= 1 && hour.whole <= 12)
    return { hour: hour.whole, minute: Math.round((hour.value - hour.whole) * 60), to: hour.to }
  const colonTime = colon(tokens, i + 1)
  if (colonTime) return colonTime
  if (hour.digits === undefined) return undefined
  if (!plainHour(hour)) {
    const clock = clockOfRun([hour])
    return clock && { ...clock, to: hour.to }
  }
  return spanishTail(tokens, hour.value, hour.to)
}

const spanishTail = (tokens: readonly Token[], hour: number, at: number): ClockAt => {
  const joiner = text(tokens, at)
  if (joiner === 'y' || joiner === 'con' || joiner === 'menos') {
    const less = joiner === 'menos'
    const part = text(tokens, at + 1)
    const fraction = FRACTIONS.get(part)
    if (joiner === 'y' && (part === 'pico' || part === 'tantos'))
      return { hour, minute: 0, approx: true, to: at + 2 }
    if (fraction !== undefined && (part === 'media' || part === 'cuarto'))
      return shift(hour, fraction * 60, less, at + 2)
    const minutes = readNumeral(tokens, at + 1)
    if (
      minutes?.digits !== undefined &&
      minutes.value < 60 &&
      !/^yardas?|galones$/.test(text(tokens, minutes.to))
    )
      return shift(hour, minutes.value, less, minutes.to)
    return { hour, minute: 0, to: at }
  }
  // `la una media`: the y went missing.
  const bare = FRACTIONS.get(joiner)
  if (
    bare !== undefined &&
    /^(?:media|cuarto)$/.test(joiner) &&
    !/^(?:para|yardas?)$/.test(text(tokens, at + 1))
  )
    return { ...shift(hour, bare * 60, false, at + 1), odd: true }
  const next = readNumeral(tokens, at)
  const zero = next?.digits !== undefined && next.value === 0 ? readNumeral(tokens, next.to) : undefined
  if (zero?.is === 'digit') return { hour, minute: zero.value, to: zero.to }
  const minutes =
    next?.digits !== undefined && next.value >= 10 && next.value < 60 && !isUnit(tokens, next.to)
  return minutes ? { hour, minute: next.value, to: next.to } : { hour, minute: 0, to: at }
}

const shift = (hour: number, minutes: number, less: boolean, to: number): ClockAt =>
  less ? { hour: hour === 1 ? 12 : hour - 1, minute: 60 - minutes, to } : { hour, minute: minutes, to }

/** `eight o'clock`, `seven on the dot`, `six a.m.`, `siete en punto`: a row of numbers marked as a time. */
const marked = (tokens: readonly Token[], i: number): ClockAt | undefined => {
  if (i > 0 && readNumeral(tokens, i - 1)) return undefined
  const run: Numeral[] = []
  let at = i
  for (let n = readNumeral(tokens, at); n && run.length < 4; n = readNumeral(tokens, at)) {
    run.push(n)
    at = n.to
  }
  if (run.length === 0) return undefined
  const read = clockOfRun(run)
  if (!read) return undefined
  const { odd: _, ...clock } = read
  const mark = text(tokens, at)
  if (mark === 'oclock') return { ...clock, to: at + 1 }
  if (mark === 'am' || mark === 'pm') return { ...clock, to: at }
  if (mark === 'on' && text(tokens, at + 1) === 'the' && /^(?:dot|nose)$/.test(text(tokens, at + 2)))
    return { ...clock, to: at + 3 }
  if (mark === 'en' && text(tokens, at + 1) === 'punto') return { ...clock, to: at + 2 }
  if (mark === 'sharp' || (mark === 'hours' && run.at(-1)!.value >= 100)) return { ...clock, to: at + 1 }
  return undefined
}

const withHalf = (tokens: readonly Token[], clock: ClockAt): ClockAt => {
  const next = text(tokens, clock.to)
  if (next === 'am' || next === 'pm') return { ...clock, half: next, to: clock.to + 1 }
  return clock
}

/** A row of numbers as a time of day: `seven oh five`, `nine thirty-eight`, `1047`; undefined where it can't be one. */
export const clockOfRun = (run: readonly Numeral[]): Clock | undefined => {
  if (run.length === 0 || run.length > 4 || run.some((n) => n.digits === undefined)) return undefined
  const values = run.map((n) => n.value)
  const [first, second, third, fourth] = values as [number, number?, number?, number?]
  if (run.length === 1) {
    const { digits, is } = run[0]!
    if (is === 'digits' && digits!.length >= 3 && digits!.length <= 4) {
      const hour = Math.floor(first / 100)
      const full = digits!.startsWith('0') || hour > 12
      return hour < 24 && first % 100 < 60 && (hour > 0 || full)
        ? { hour, minute: first % 100, ...(full ? { half: '24h' as const } : {}) }
        : undefined
    }
    if (is === 'compound' && first >= 100 && first % 100 === 0 && first <= 2300) {
      const hour = first / 100
      return { hour, minute: 0, ...(hour > 12 ? { half: '24h' as const } : {}) }
    }
    // An hour alone: the minutes may have been lost, so it is asked.
    return first >= 1 && first <= 12 ? { hour: first, minute: 0, odd: true } : undefined
  }
  if (first === 0 && second !== undefined && second >= 1 && second <= 9) {
    const rest = minuteOf(run.slice(2))
    return run.length === 2
      ? undefined
      : rest === undefined
        ? undefined
        : { hour: second, minute: rest, half: '24h' }
  }
  if (first < 1 || first > 23) return undefined
  const full = first > 12 ? { half: '24h' as const } : {}
  if (run.length === 2 && second! >= 10 && second! < 60) return { hour: first, minute: second!, ...full }
  if (run.length === 2 && run[1]!.digits!.length === 2 && second! < 60)
    return { hour: first, minute: second!, ...full }
  if (run.length === 2 && second! >= 1 && second! <= 9)
    return { hour: first, minute: second!, odd: true, ...full }
  if (run.length === 3 && second === 0 && third! >= 0 && third! <= 9)
    return { hour: first, minute: third!, ...full }
  // Digit by digit: seven four two, one oh one five.
  if (run.length === 3 && run.every((n) => n.is === 'digit') && second! < 6)
    return { hour: first, minute: second! * 10 + third!, ...full }
  if (run.length === 4 && run.every((n) => n.is === 'digit') && first === 1 && second! <= 2 && third! < 6)
    return { hour: 10 + second!, minute: third! * 10 + fourth! }
  return undefined
}

const minuteOf = (run: readonly Numeral[]): number | undefined => {
  const [a, b] = run
  if (!a) return undefined
  if (!b) return a.value >= 10 && a.value < 60 ? a.value : undefined
  return run.length === 2 && a.value < 6 && b.value <= 9 ? a.value * 10 + b.value : undefined
}

/**
 * The time as facts write it. Hours 6 to 11 are before noon and 12 to 5 after it, unless somebody said which half of the day.
 * Source: our choice, for the hours at which slabs are poured.
 */
export const showClock = (clock: Clock, half: Clock['half'] = clock.half): string => {
  const minute = String(clock.minute).padStart(2, '0')
  if (clock.hour === undefined) return `*:${minute}`
  const said = clock.half ?? half
  const hour =
    said === '24h'
      ? clock.hour
      : said === 'am'
        ? clock.hour % 12
        : said === 'pm'
          ? (clock.hour % 12) + 12
          : clock.hour >= 1 && clock.hour <= 5
            ? clock.hour + 12
            : clock.hour
  return `${String(hour).padStart(2, '0')}:${minute}`
}
