import { type Clock, readClock } from './clock.ts'
import { type Numeral, readNumeral } from './numerals.ts'
import { matchTerm } from './terms.ts'
import type { Token } from './tokens.ts'
import { FRACTIONS, ORDINALS } from './vocabulary/number-words.ts'
import type { Term } from './vocabulary/term.ts'

type Span = { readonly from: number; readonly to: number; readonly seg: number }
/** A sentence in the pieces that rules look at. */
export type Item = Span &
  (
    | { readonly is: 'term'; readonly terms: ReadonlySet<Term>; readonly text: string }
    | { readonly is: 'num'; readonly run: readonly Numeral[] }
    | { readonly is: 'clock'; readonly clock: Clock }
    | { readonly is: 'load'; readonly load: number }
    | { readonly is: 'word'; readonly text: string }
    | { readonly is: 'comma' }
  )

export const isTerm = (item: Item | undefined, ...terms: readonly Term[]): boolean =>
  item?.is === 'term' && terms.some((term) => item.terms.has(term))

/** What one waits for before the next word: it says nothing by itself. */
const SOFT = new Set(
  '# s re d ve ll m is are was were be been being am the a an of it its he she we they i you him her us them this that these those there uh um er ah eh okay ok yeah well so like just right and to for with on in at by from up had has have do does did got get getting came come comes coming went gone go going sitting running test reading reads read says said say about around roughly maybe even flat solid exactly kinda sorta pretty much y es esta estan fue era son se le lo la los las el un una que de en a ya al con por para hay como mas anda salio quedo todo muy nos me te su mi este ese bueno pues entonces number numero now today here out over another more still already was supposed should it_s total'.split(
    ' ',
  ),
)

const HARD_STOP = new Set(['bar', 'bars'])

export const isSoft = (item: Item): boolean =>
  (item.is === 'word' && SOFT.has(item.text)) ||
  isTerm(
    item,
    'approx',
    'by-eye',
    'the',
    'a',
    'at',
    'says',
    'it-is',
    'is-in',
    'now',
    'this',
    'got',
    'and-then',
    'by',
    'ran',
    'again',
    'has',
    'just',
    'area-on',
    'and',
    'cast',
    'radio',
  )

/** A break between clauses that is a word and no mark. */
const BREAKS = new Set([
  'but',
  'so',
  'because',
  'cause',
  'then',
  'pero',
  'porque',
  'entonces',
  'luego',
  'while',
  'mientras',
])

/** The items of a sentence; each token belongs to one at most. Linear: no rule looks further than eight tokens on. */
export const readItems = (tokens: readonly Token[]): Item[] => {
  const items: Item[] = []
  let seg = 0
  for (let i = 0; i < tokens.length; ) {
    const token = tokens[i]!
    if (token.is === 'mark' && !'"%°#\''.includes(token.text)) {
      seg += 1
      items.push({ is: 'comma', from: i, to: i + 1, seg })
      i += 1
      continue
    }
    const item = readItem(tokens, i, seg, items)
    if (item.is === 'word' && BREAKS.has(item.text)) seg += 1
    if (item.is === 'term' && item.terms.has('and-then') && BREAKS.has(tokens[i]!.text)) seg += 1
    items.push({ ...item, seg })
    i = item.to
  }
  return items
}

const readItem = (tokens: readonly Token[], i: number, seg: number, before: readonly Item[]): Item => {
  const clock = readClock(tokens, i)
  if (clock) {
    const { to, ...said } = clock
    return { is: 'clock', clock: said, from: i, to, seg }
  }
  const load = readLoad(tokens, i)
  if (load) return { is: 'load', load: load.load, from: i, to: load.to, seg }
  const term = matchTerm(tokens, i)
  const run = readRun(tokens, i, before.at(-1))
  if (run && (!term || (run.at(-1)!.to >= term.to && !term.terms.has('radio'))))
    return { is: 'num', run, from: i, to: run.at(-1)!.to, seg }
  if (term) {
    const text = tokens
      .slice(i, term.to)
      .map((t) => t.text)
      .join(' ')
    const terms = plainUnits(term.terms, tokens, i)
    if (terms.size > 0) return { is: 'term', terms, text, from: i, to: term.to, seg }
  }
  return { is: 'word', text: tokens[i]!.text, from: i, to: i + 1, seg }
}

/** `in` and a quote mark are units only straight after digits. */
const plainUnits = (terms: ReadonlySet<Term>, tokens: readonly Token[], i: number): ReadonlySet<Term> => {
  const { text } = tokens[i]!
  const before = tokens[i - 1]
  if (text !== 'in' && text !== '"' && text !== "'" && text !== 'f') return terms
  const digits = before?.is === 'digits'
  const follows = readNumeral(tokens, i + 1) !== undefined
  if (digits && !(text === 'in' && (follows || tokens[i + 1]?.text === 'at'))) return terms
  return new Set([...terms].filter((term) => term !== 'u-in' && term !== 'u-ft' && term !== 'u-deg'))
}

/** A row of numbers with nothing between them, as far as it goes. */
const readRun = (tokens: readonly Token[], i: number, before: Item | undefined): Numeral[] | undefined => {
  const run: Numeral[] = []
  let at = i
  while (run.length < 12) {
    const size = matchTerm(tokens, at)?.terms
    if (size?.has('u-4x8') || size?.has('u-6x12')) break
    const numeral =
      readNumeral(tokens, at) ?? (run.length === 0 && before?.is !== 'num' ? alone(tokens, at) : undefined)
    if (!numeral || numeral.is === 'clock') break
    if (run.length > 0 && numeral.from > at) break
    run.push(numeral)
    at = numeral.to
    if (tokens[at]?.is === 'mark') break
  }
  if (run.length === 0) return undefined
  const only = run.length === 1 ? tokens[i]!.text : ''
  // A lone `oh` is a sigh, a lone zero mostly a `no`; both are digits beside others.
  if (only === 'oh') return undefined
  if (
    (only === 'zero' || only === 'cero') &&
    !isTerm(before, 'slump', 'density', 'correction-of') &&
    !/^(?:gallons?|galones|gal)$/.test(tokens[at]?.text ?? '')
  )
    return undefined
  return HARD_STOP.has(tokens[at]?.text ?? '') && run.length === 1 ? undefined : run
}

/** `half a yard`, `a yard`, `an hour`, `media yarda`, `a quarter inch`: one or a part of one, said before its unit. */
const alone = (tokens: readonly Token[], i: number): Numeral | undefined => {
  const first = tokens[i]?.text ?? ''
  const part = first === 'half' || first === 'medio' || first === 'media' ? 1 / 2 : undefined
  let at = i + 1
  if (part !== undefined) {
    if (/^(?:a|an|of)$/.test(tokens[at]?.text ?? '')) at += 1
    if (/^(?:a|an)$/.test(tokens[at]?.text ?? '')) at += 1
    return unitAt(tokens, at) ? { value: part, is: 'fraction', whole: 0, from: i, to: at } : undefined
  }
  if (!/^(?:a|an|un|una|one)$/.test(first)) return undefined
  const fraction = FRACTIONS.get(tokens[at]?.text ?? '')
  if (fraction !== undefined) {
    const next = /^(?:of)$/.test(tokens[at + 1]?.text ?? '') ? at + 2 : at + 1
    const then = /^(?:a|an)$/.test(tokens[next]?.text ?? '') ? next + 1 : next
    return unitAt(tokens, then) ? { value: fraction, is: 'fraction', whole: 0, from: i, to: then } : undefined
  }
  return unitAt(tokens, at) && !/(?:s|inch|degree|percent|mile|foot)$/.test(tokens[at]!.text)
    ? { value: 1, digits: '1', is: 'digit', from: i, to: at }
    : undefined
}

const unitAt = (tokens: readonly Token[], i: number): boolean =>
  /^(?:yards?|gallons?|gal|inch|inches|minutes?|hours?|yardas?|galon|galones|hora|minuto)$/.test(
    tokens[i]?.text ?? '',
  )

const LOADS = new Set([
  'load',
  'truck',
  'carga',
  'viaje',
  'camion',
  'trompo',
  'olla',
  'revolvedora',
  'one',
  'mixer',
  'truckload',
  'troca',
  'drum',
  'batch',
])
const LOAD_WORDS = new Set(['load', 'carga', 'viaje'])
const UNIT_AHEAD =
  /^(?:yards?|gallons?|gal|inch|inches|percent|minutes?|degrees|yardas?|galones|pulgadas|hundred|point|punto|yd|yds|quarters?|and|y)$/

/** Which load of the day: `load two`, `the second truck`, `la tercera carga`, `5.4 on two`. */
const readLoad = (tokens: readonly Token[], i: number): { load: number; to: number } | undefined => {
  const first = tokens[i]!.text
  const next = tokens[i + 1]?.text ?? ''
  const ordinal = ORDINALS.get(first)
  if (ordinal !== undefined && LOADS.has(next)) return { load: ordinal, to: i + 2 }
  if (
    ordinal !== undefined &&
    /^(?:la|el|the)$/.test(tokens[i - 1]?.text ?? '') &&
    /^(?:le|trae|llego|got|had|s|was|is)$/.test(next) &&
    first !== 'second'
  )
    return { load: ordinal, to: i + 1 }
  if (/^(?:number|numero)$/.test(first)) {
    const n = readNumeral(tokens, i + 1)
    if (
      n?.digits &&
      n.value >= 1 &&
      n.value <= 20 &&
      LOADS.has(tokens[n.to]?.text ?? '') &&
      tokens[n.to]?.text !== 'one'
    )
      return { load: n.value, to: n.to + 1 }
  }
  // Written short: L2.
  if (first === 'l' && tokens[i + 1]?.is === 'digits' && tokens[i + 1]!.joined && /^\d{1,2}$/.test(next))
    return { load: Number(next), to: i + 2 }
  if (LOAD_WORDS.has(first)) {
    let at = i + 1
    if (/^(?:number|numero|#|no)$/.test(tokens[at]?.text ?? '') && readNumeral(tokens, at + 1)) at += 1
    const n = readNumeral(tokens, at)
    if (!n?.digits || n.value < 1 || n.value > 20 || n.is === 'about') return undefined
    const after = tokens[n.to]
    if (after && UNIT_AHEAD.test(after.text) && !(after.text === 'and' || after.text === 'y'))
      return undefined
    return { load: n.value, to: n.to }
  }
  if (/^(?:on|for|off)$/.test(first)) {
    const n = readNumeral(tokens, i + 1)
    const after = n && tokens[n.to]
    if (
      n?.is === 'digit' &&
      n.value >= 1 &&
      (!after || after.is === 'mark' || /^(?:was|is|s|got|had|came|were)$/.test(after.text))
    )
      return { load: n.value, to: n.to }
  }
  return undefined
}
