import { type Amount, wordOf } from './amounts.ts'
import { takesTime } from './event-words.ts'
import type { FactKind } from './facts.ts'
import { type Item, isSoft, isTerm } from './items.ts'
import type { Sentence } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'

/** How far to either side a number looks for what it is the number of. */
const REACH = 9

export type Cue = { readonly at: number; readonly direct: boolean }

const READING_CUES: readonly (readonly [Term, FactKind])[] = [
  ['flow', 'reading.slump_flow'],
  ['slump', 'reading.slump'],
  ['cone', 'reading.slump'],
  ['concrete-temperature', 'reading.concrete_temperature'],
  ['on-concrete', 'reading.concrete_temperature'],
  ['air-temperature', 'reading.air_temperature'],
  ['air-meter', 'reading.air'],
  ['air', 'reading.air'],
  ['concrete', 'reading.concrete_temperature'],
  ['humidity', 'reading.humidity'],
  ['density', 'reading.density'],
  ['wind', 'reading.wind'],
  ['outside', 'reading.air_temperature'],
]

export const readingCue = (item: Item | undefined): FactKind | undefined => {
  if (item?.is !== 'term') return undefined
  // `hay aire`, `mucho aire`: wind, whatever else aire may be.
  if (item.terms.has('wind')) return 'reading.wind'
  return READING_CUES.find(([term]) => item.terms.has(term))?.[1]
}

const isCue = (items: readonly Item[], i: number): boolean =>
  readingCue(items[i]) !== undefined ||
  isTerm(
    items[i],
    'truck',
    'ticket',
    'on-ticket',
    'load',
    'water',
    'water-act',
    'temperature',
    'gust',
    'ends',
    'set',
    'last-load',
    'correction-of',
    'cylinders',
    'reject',
    'left-plant',
    'correct',
    'limit',
    'mix',
    'forms',
    'u-yd',
    'u-gal',
  ) ||
  takesTime(items, i)

/** The nearest thing to the left that may want this number: in its clause, or alone in the clause before. */
export const cueBefore = ({ items, used }: Sentence, amount: Amount, from = amount.at): Cue | undefined => {
  let direct = true
  let crossed = false
  for (let i = from - 1; i >= 0 && i >= amount.at - REACH; i--) {
    const item = items[i]!
    if (item.is === 'comma') {
      // Over a pause only where nothing but the thing itself was said before it: `Time in, seven forty-two`.
      if (i !== amount.at - 1 && !items.slice(i + 1, amount.at).every(isSoft)) return undefined
      crossed = true
      continue
    }
    if (item.is === 'num' || item.is === 'clock') {
      if (item.is === 'num' && isTerm(items[i + 1], 'u-min', 'u-hour')) return undefined
      return undefined
    }
    if (isCue(items, i)) {
      if (used.has(i)) return undefined
      // What already has its number in a clause of its own wants no second one; an event may still want its time.
      const own =
        crossed &&
        !takesTime(items, i) &&
        items
          .slice(Math.max(0, i - REACH), i)
          .some((x) => x.seg === item.seg && (x.is === 'num' || x.is === 'clock'))
      if (own) return undefined
      return { at: i, direct: direct && !(crossed && !takesTime(items, i)) }
    }
    if ((!isSoft(item) && item.is !== 'load') || crossed) direct = false
  }
  return undefined
}

/** What stands straight after the number: `six four air`, `sixty-three on the mud`, `ocho de aire`. */
export const cueAfter = ({ items }: Sentence, amount: Amount): Cue | undefined => {
  let i = amount.end
  for (let skipped = 0; skipped < 4; skipped++, i++) {
    const item = items[i]
    if (!item || item.is === 'comma' || item.is === 'num' || item.is === 'clock') return undefined
    if (
      readingCue(item) !== undefined ||
      isTerm(
        item,
        'of-water',
        'temperature',
        'out',
        'water',
        'cylinders',
        'ticket',
        'last-load',
        'correction-of',
      )
    )
      return { at: i, direct: skipped === 0 }
    const word = wordOf(item)
    if (isTerm(item, 'water-act') && word?.endsWith('in')) return { at: i, direct: true }
    if (
      !(
        isTerm(item, 'area-on', 'the', 'a', 'approx', 'u-in', 'between') ||
        (word !== undefined && /^(?:of|de|on|the|for|in|el|la|en|s|is|test|es|even|flat|solid)$/.test(word))
      )
    )
      return undefined
  }
  return undefined
}

/** A word straight before the number that surely takes it, so that what follows has its own number. */
export const sentenceWants = (items: readonly Item[], i: number): boolean =>
  readingCue(items[i]) !== undefined ||
  isTerm(
    items[i],
    'truck',
    'ticket',
    'gust',
    'water',
    'water-act',
    'temperature',
    'load',
    'last-load',
    'correct',
  ) ||
  takesTime(items, i)
