import { wordOf } from './amounts.ts'
import { type Item, isTerm } from './items.ts'
import { type Draft, ofSentence, type Sentence } from './sentence.ts'
import type { Token } from './tokens.ts'
import { FRACTIONS } from './vocabulary/number-words.ts'

/**
 * Marks of words lost or misheard on the way: a sentence that shows one is not read with confidence, whatever it gave. Each fact
 * of it is asked. What a recogniser drops without a trace (`eighty` for `eighty-six`) nobody can see from the words.
 */
export const markDamage = (sentence: Sentence, repaired: number): void => {
  const facts = ofSentence(sentence)
  const all =
    repaired > 0 ||
    dangles(sentence) ||
    lacksNumber(sentence) ||
    leftOpen(sentence) ||
    sentence.amounts.some((a) => a.split)
  for (const { draft, at: at0 } of facts) {
    if (draft.kind === 'note') continue
    const at = draft.value ?? draft.max
    const rare =
      draft.time === 'not_stated' ||
      // Slump or air of nine is seldom; five and nine sound alike.
      ((draft.kind === 'reading.slump' || draft.kind === 'reading.air') &&
        typeof at === 'number' &&
        at >= 9) ||
      (draft.kind === 'load.truck' && /^(?:0|\d$)/.test(String(draft.value))) ||
      (draft.kind === 'load.ticket' && String(draft.value).length > 6) ||
      oneByOne(sentence, at0, draft)
    if (all || rare) draft.low_confidence = true
  }
}

/** How many words were put right by sound. */
export const repairs = (heard: readonly Token[], read: readonly Token[]): number =>
  heard.filter((token, i) => token.text !== read[i]?.text && token.text !== 'batch').length

const TRAILS =
  /^(?:at|and|of|the|a|an|y|de|con|to|by|on|el|la|las|no|was|is|point|punto|in|le|un|una|en|half|quarter|minus|menos|like|i|we|he|they|she|first|second|third|segunda|primera)$/
const TRAILS_WELL = /^(?:in|on)$/

/** Words that lead to something that did not come: `in load two at`, `four and a`, `a las y nueve`. */
const dangles = ({ items, amounts }: Sentence): boolean =>
  items.some((item, i) => {
    const next = items[i + 1]
    const ends = next === undefined || next.is === 'comma'
    const word = wordOf(item) ?? ''
    const before = items[i - 1]
    if (
      ends &&
      TRAILS.test(word) &&
      !(TRAILS_WELL.test(word) && before?.is !== 'num') &&
      !(word === 'no' && (before === undefined || before.is === 'comma'))
    )
      return true
    if (word === 'point' || word === 'punto') return true
    if (before?.is === 'num' && /^(?:medio|media|cuarto|quarters)$/.test(word)) return true
    if (amounts.some((a) => i > a.at && i < a.end)) return false
    if (
      FRACTIONS.has(word) &&
      item.is === 'word' &&
      word !== 'third' &&
      before !== undefined &&
      isTerm(before, 'and')
    )
      return true
    // A number that begins with its tail: `and three quarters yards` with the whole number lost.
    const head = item.is === 'num' && item.run[0]!.is === 'fraction' && item.run[0]!.whole === 0
    if (head && before !== undefined && isTerm(before, 'and')) return true
    if (/^(?:at|a las|a la|las)$/.test(word) && next !== undefined && isTerm(next, 'and')) return true
    const after = items[i + 2]
    if (
      /^(?:the|of|la|el|in the|with the)$/.test(word) &&
      next !== undefined &&
      isTerm(next, 'at', 'and', 'to-or') &&
      !(word === 'la' && next.is === 'clock')
    )
      return true
    // `humedad y cuatro`, `two and a after`, `a hundred and pounds`.
    if (next === undefined || !isTerm(next, 'and')) return false
    if (isTerm(item, 'humidity', 'slump', 'air', 'wind', 'concrete') && after?.is === 'num')
      return isTerm(item, 'humidity')
    const article =
      isTerm(after, 'a') &&
      items[i + 3]?.is !== 'num' &&
      !isTerm(items[i + 3], 'slump', 'air', 'truck', 'load')
    return (
      item.is === 'num' && (article || isTerm(after, 'u-lbft3', 'u-yd', 'u-gal', 'u-in', 'u-pct', 'u-deg'))
    )
  })

const CUES = [
  ['slump', 'reading.slump'],
  ['air', 'reading.air'],
  ['humidity', 'reading.humidity'],
  ['density', 'reading.density'],
  ['wind', 'reading.wind'],
  ['concrete-temperature', 'reading.concrete_temperature'],
  ['air-temperature', 'reading.air_temperature'],
] as const
const DETERMINED =
  /^(?:this|that|the|a|my|last|balance|per|next|mud|hot|his|esta|esa|la|una|first|whole|full|half|de|each|every|another|our|to|no|a el|el|en el|de el|a la|en la|de la|on this|on that|partial|short)$/

/** A reading, a unit or a load that is named with no number of its own. */
const lacksNumber = (sentence: Sentence): boolean => {
  const { items } = sentence
  const facts = ofSentence(sentence)
  if (items.some((item) => isTerm(item, 'no', 'limit', 'change', 'little-wind', 'reject')))
    return bareUnit(sentence) || bareLoad(sentence)
  const bare = CUES.some(
    ([term, kind]) =>
      items.some((item, i) => isTerm(item, term) && !sentence.used.has(i)) &&
      !facts.some(({ draft }) => draft.kind === kind || (term === 'air' && /air|wind/.test(draft.kind))),
  )
  return bare || bareLoad(sentence) || bareUnit(sentence)
}

const bareLoad = ({ items }: Sentence): boolean =>
  items.some(
    (item, i) =>
      item.is === 'term' &&
      item.terms.has('load') &&
      /^(?:load|carga|viaje)$/.test(item.text) &&
      !DETERMINED.test(wordOf(items[i - 1]) ?? '') &&
      (items[i + 1] === undefined || !isTerm(items[i - 1], 'area-on')) &&
      !isTerm(items[i - 1], 'this', 'the', 'last-one', 'concrete', 'a') &&
      items[i - 1]?.is !== 'load',
  )

const bareUnit = ({ items, amounts }: Sentence): boolean =>
  items.some(
    (item: Item, i) =>
      isTerm(item, 'u-gal', 'u-pct', 'u-deg', 'u-yd', 'u-min', 'u-hour') &&
      items[i - 1]?.is !== 'num' &&
      !amounts.some((a) => i >= a.at && i < a.end) &&
      !isTerm(items[i - 1], 'more', 'a') &&
      !isTerm(items[i - 1], 'foreign') &&
      wordOf(items[i + 1]) !== 's' &&
      wordOf(items[i + 1]) !== 'is' &&
      !/^(?:f|in)$/.test(wordOf(item) ?? ''),
  )

/** Numbers and times that nothing took. */
const leftOpen = (sentence: Sentence): boolean =>
  sentence.amounts.some(
    (a) =>
      !sentence.usedAmounts.has(a) &&
      !sentence.chatter.has(a.seg) &&
      a.unit !== 'foreign' &&
      a.unit !== 'number-bar' &&
      a.unit !== 'u-ft' &&
      a.unit !== 'u-psi' &&
      !noted(sentence, a.seg),
  ) || sentence.times.some((time) => !time.used)

const noted = (sentence: Sentence, seg: number): boolean =>
  ofSentence(sentence).some((m) => m.draft.kind === 'note') &&
  !ofSentence(sentence).some((m) => m.draft.kind !== 'note' && m.seg === seg)

/** A truck of two digits said one by one has lost something between them: sixteen is no `one six`. */
const oneByOne = ({ amounts }: Sentence, at: number, { kind, value }: Draft): boolean => {
  const run = amounts.find((a) => a.at === at)?.run
  return kind === 'load.truck' && String(value).length === 2 && run?.length === 2
}
