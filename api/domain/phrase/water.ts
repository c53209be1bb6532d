import { type Amount, wordOf } from './amounts.ts'
import { type Item, isTerm } from './items.ts'
import { asReading } from './readings.ts'
import { type Draft, mention, ofSentence, type Sentence } from './sentence.ts'

/** Words in the clause before the amount, back to where the clause begins. */
const clauseBefore = (items: readonly Item[], amount: Amount): readonly Item[] => {
  const from = items.findIndex((item) => item.seg === amount.seg && item.is !== 'comma')
  return items.slice(Math.max(0, from), amount.at)
}

/**
 * Asked for, allowed or planned is not added: an imperative, a wish or a permission before the amount, with no word after it
 * that says it went in.
 */
export const isAskedFor = (sentence: Sentence, amount: Amount): boolean => {
  const before = clauseBefore(sentence.items, amount)
  const asked = before.findLastIndex(
    (item) => isTerm(item, 'ask', 'plan', 'limit') && !isTerm(item, 'water-act'),
  )
  // `okayed five gallons and the driver put it in`.
  const then = sentence.items
    .slice(amount.end)
    .some((item) => isTerm(item, 'water-act') && /\b(?:it|em|them) in$/.test(wordOf(item) ?? ''))
  if (then) return false
  const added = before.findLastIndex((item) => isTerm(item, 'water-act', 'water-took'))
  if (added < 0) return asked >= 0
  // `they hit it with twelve` tells; `hit it with ten` asks.
  if (wordOf(before[added])?.startsWith('hit') && !before.slice(0, added).some(isSubject)) return true
  return asked >= 0 && (asked > added || !isTerm(before[added], 'water-act') || isBase(before, added))
}

/** After `go ahead and`, `let's` or `to`, `put` is no past. */
const isBase = (before: readonly Item[], added: number): boolean =>
  /^(?:put|put in|hit .*)$/.test(wordOf(before[added]) ?? '') &&
  before.slice(Math.max(0, added - 2), added).some((i) => isTerm(i, 'ask', 'plan'))

const isSubject = (item: Item): boolean =>
  isTerm(item, 'driver', 'no') ||
  /^(?:we|i|he|they|she|curt|wade|driver|somebody|someone|guys|beto|marisol|teddy)$/.test(wordOf(item) ?? '')

/** Water into the drum, asked for, or by the yard. */
export const assignWater = (sentence: Sentence, amount: Amount, cue: number | undefined): boolean => {
  const { items } = sentence
  const spokenUnit = amount.unit === 'u-gal' || amount.unit === 'u-l'
  if (amount.unit === 'gallon-a-yard') return false
  if (amount.unit !== undefined && !spokenUnit) return false
  const draft = asReading('load.water_added', amount)
  if (!draft) return false
  const clause = items.filter((item) => item.seg === amount.seg)
  const topic =
    ofSentence(sentence).some((m) => m.draft.kind === 'load.water_added') ||
    sentence.talk.mentions.at(-1)?.draft.kind === 'load.water_added'
  const said = cue !== undefined && isTerm(items[cue], 'water', 'of-water', 'water-act')
  const again =
    topic && items.slice(Math.max(0, amount.at - 2), amount.at).some((item) => isTerm(item, 'more'))
  if (!spokenUnit && !said && !again) return askBare(sentence, amount)
  if (!spokenUnit && amount.run.length > 1) return false
  sentence.usedAmounts.add(amount)
  if (cue !== undefined && said) sentence.used.add(cue)
  if (isAskedFor(sentence, amount)) return noteAsked(sentence, amount)
  if (clause.some((item) => isTerm(item, 'not-yet', 'almost') && !isTerm(item, 'approx')))
    return noteAsked(sentence, amount)
  // `put` by itself may be an order; who put it, when or where tells that it was done.
  mention(sentence, draft, amount.at)
  return true
}

/** `another four gallons, that makes fourteen`: the total stands beside what was added. */
export const addTotal = (sentence: Sentence, amount: Amount): boolean => {
  const total = clauseBefore(sentence.items, amount).some((item) => isTerm(item, 'makes-total'))
  const last = sentence.talk.mentions.at(-1)
  const fits = amount.unit === undefined || amount.unit === 'u-gal'
  if (!total || !fits || last?.draft.kind !== 'load.water_added' || last.draft.value === 0) return false
  const draft = asReading('load.water_added', amount)
  if (typeof draft?.value !== 'number' || draft.value < Number(last.draft.value)) return false
  last.draft.running_total = draft.value
  sentence.usedAmounts.add(amount)
  return true
}

const noteAsked = (sentence: Sentence, amount: Amount): true => {
  sentence.usedAmounts.add(amount)
  mention(sentence, { kind: 'note', about: 'asked-for' }, amount.at)
  return true
}

/** `give me ten`, `go ahead and give it ten`, `dale cinco más`: an order by itself, with nothing after the number. */
const askBare = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.upTo || amount.run.length > 1) return false
  const before = clauseBefore(items, amount)
  const ask = before.findLastIndex(
    (item) =>
      isTerm(item, 'ask') || (isTerm(item, 'water-act') && /^(?:hit|give|gave)/.test(wordOf(item) ?? '')),
  )
  if (ask < 0 || before.length - ask > 4) return false
  const gives =
    /^(?:give|gimme|hit|go ahead|go with|dale|echale|metele|ponle|denle|echenle|add|throw in|shoot|can go|let s|let me have|agregale|avientale|echame|can (?:add|have|put|give)|could use|que le (?:eche|echen|ponga)|ask|tell|dame|subele|tirale|metanle)/.test(
      wordOf(before[ask]) ?? '',
    )
  if (!gives) return false
  const rest = items
    .slice(amount.end)
    .find(
      (item) =>
        item.seg === amount.seg &&
        !isTerm(item, 'more', 'of-water', 'now', 'the') &&
        item.is !== 'comma' &&
        !/^(?:to|there|please|mas|then|for|start|por|favor|and|it|a)$/.test(wordOf(item) ?? ''),
    )
  if (rest && !isTerm(rest, 'water', 'u-gal', 'start')) return false
  return noteAsked(sentence, amount)
}

/** `a gallon a yard`: as many gallons as the load has yards, where those are known. */
export const waterByTheYard = (sentence: Sentence): void => {
  const { items } = sentence
  const at = items.findIndex((item) => isTerm(item, 'gallon-a-yard'))
  if (at < 0 || items.some((item) => isTerm(item, 'ask', 'plan', 'limit'))) return
  const yards = ofSentence(sentence).find((m) => m.draft.kind === 'load.volume')?.draft.value
  if (typeof yards === 'number')
    mention(sentence, { kind: 'load.water_added', value: yards, unit: 'gal', derived: true }, at)
  else mention(sentence, { kind: 'note', about: 'remark' }, at)
}

const WATER_BEGAN: Draft['stage'] = 'after_discharge_began'

/** When the water went in, against the pour: where it is said, or plain from yards out or left. */
export const waterStages = (sentence: Sentence): void => {
  const { items } = sentence
  for (const { draft, at } of ofSentence(sentence)) {
    if (draft.kind !== 'load.water_added' || draft.value === 0) continue
    const near = (...terms: Parameters<typeof isTerm>[1][]) =>
      items.some((item, i) => isTerm(item, ...terms) && Math.abs(i - at) < 16)
    if (near('transit')) draft.stage = 'in_transit'
    else if (near('before-discharge')) draft.stage = 'before_discharge'
    else if (near('after-discharge')) draft.stage = WATER_BEGAN
    if (draft.yd3_left !== undefined || draft.yd3_out !== undefined) draft.stage = WATER_BEGAN
  }
}
