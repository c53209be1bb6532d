import { wordOf } from './amounts.ts'
import type { NoteAbout } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import { type Draft, mention, ofSentence, type Sentence } from './sentence.ts'
import { FINISHING, type Term } from './vocabulary/term.ts'

const has = (items: readonly Item[], ...terms: readonly Term[]): boolean =>
  items.some((item) => isTerm(item, ...terms))

const STEPS: readonly Term[] = [
  ...FINISHING.filter((name) => name !== 'rain'),
  ...FINISHING.map((name) => `${name}-ing` as Term),
  ...FINISHING.map((name) => `${name}-past` as Term),
]

/** What is worth keeping as words though it is no figure: each rule looks at the whole sentence and gives one remark. */
export const readNotes = (sentence: Sentence): void => {
  const { items } = sentence
  const made = ofSentence(sentence)
  const noted = made.some(({ draft }) => draft.kind === 'note')
  const facts = made.filter(({ draft }) => draft.kind !== 'note')
  const windy =
    has(items, 'little-wind') && facts.some(({ draft }) => draft.kind === 'reading.air_temperature')
  if (windy) mention(sentence, { kind: 'note', about: 'wind-by-feel' }, 0)
  if (noted || windy) return
  const about = ABOUT.find(([, rule]) => rule(sentence, items, facts.length > 0))?.[0]
  if (about) {
    mention(sentence, { kind: 'note', about }, 0)
    return
  }
  if (facts.length === 0) return
  // A clause that gave no fact may still hold a remark: `ya está el broom, falta el cure`.
  for (const seg of new Set(items.map((item) => item.seg))) {
    if (facts.some((m) => m.seg === seg)) continue
    const part = {
      ...sentence,
      items: items.filter((item) => item.seg === seg),
      amounts: sentence.amounts.filter((a) => a.seg === seg),
    }
    const of = ABOUT.find(([, rule]) => rule(part, part.items, false))?.[0]
    if (!of) continue
    mention(
      sentence,
      { kind: 'note', about: of },
      items.findIndex((item) => item.seg === seg),
    )
    return
  }
}

type Rule = (sentence: Sentence, items: readonly Item[], facts: boolean) => boolean

const numbered = ({ amounts, items }: Sentence): boolean =>
  amounts.length > 0 || items.some((i) => i.is === 'clock')
const chatter = (items: readonly Item[]): boolean => has(items, 'chatter')
const step = (items: readonly Item[]): boolean => has(items, ...STEPS)
const unit = (sentence: Sentence, ...units: readonly Term[]): boolean =>
  sentence.amounts.some((a) => a.unit !== undefined && units.includes(a.unit))

const ABOUT: readonly (readonly [NoteAbout, Rule])[] = [
  ['left-plant', (_, items) => has(items, 'left-plant')],
  [
    'dispatch',
    (s, items, facts) =>
      !facts &&
      !chatter(items) &&
      has(items, 'dispatch') &&
      (numbered(s) ||
        has(items, 'truck', 'load') ||
        items.some((i) => i.is === 'load') ||
        items.some((i) => /^(?:called|says|said|stuck|next)$/.test(wordOf(i) ?? '') || isTerm(i, 'says'))),
  ],
  [
    'on-the-way',
    (s, items) =>
      unit(s, 'u-min', 'u-hour') &&
      (has(items, 'truck', 'load', 'dispatch', 'plan', 'late') || items.some((i) => i.is === 'load')) &&
      has(items, 'minutes-out', 'out', 'transit') &&
      !has(items, 'ago', 'old') &&
      !s.times.some((t) => t.minAgo !== undefined),
  ],
  [
    'asked-for',
    (s, items, facts) =>
      !facts &&
      !chatter(items) &&
      has(items, 'ask') &&
      (has(items, 'water', 'of-water', 'u-gal') || unit(s, 'u-gal')) &&
      !has(items, 'bleed', 'bleeding', 'gone') &&
      !has(items, 'no') &&
      !bare(items),
  ],
  ['planned', (_, items, facts) => !facts && has(items, 'plan') && has(items, 'rain') && !chatter(items)],
  [
    'ordered',
    (s, items, facts) =>
      !facts &&
      has(items, 'ordered') &&
      !chatter(items) &&
      s.amounts.some((a) => a.unit === undefined || a.unit === 'u-yd') &&
      (unit(s, 'u-yd') || has(items, 'more')) &&
      !s.amounts.some((a) => a.unit === 'foreign'),
  ],
  [
    'mix',
    (s) =>
      unit(s, 'u-psi') ||
      s.items.some(
        (i, k) => /^(?:sack|bag mix|sack mix)$/.test(wordOf(i) ?? '') && s.items[k - 1]?.is === 'num',
      ) ||
      sackMix(s),
  ],
  [
    'limit',
    (s, items, facts) =>
      !facts &&
      has(items, 'limit') &&
      s.amounts.length > 0 &&
      (unit(s, 'u-min', 'u-hour', 'u-gal') ||
        has(items, 'slump', 'air', 'ticket', 'concrete', 'concrete-temperature', 'water', 'mix')) &&
      !chatter(items),
  ],
  ['covered', (_, items, facts) => !facts && has(items, 'covered') && !chatter(items) && !has(items, 'ask')],
  [
    'forms',
    (s, items, facts) =>
      !facts &&
      has(items, 'forms') &&
      s.amounts.some((a) => a.unit !== 'foreign') &&
      !chatter(items) &&
      !has(items, 'ask'),
  ],
  [
    'base',
    (_, items, facts) =>
      !facts &&
      has(items, 'base') &&
      !chatter(items) &&
      items.some(
        (i) =>
          /^(?:swept|ready|compacted|good|wet|damp|firm|done|barrimos|lista|listo|compactamos|ya)$/.test(
            wordOf(i) ?? '',
          ) ||
          (isTerm(i, 'base') && /(?:barrimos|lista|compact)/.test(wordOf(i) ?? '')),
      ),
  ],
  [
    'not-yet',
    (_, items, facts) =>
      !facts &&
      !chatter(items) &&
      has(items, 'not-yet') &&
      (step(items) || has(items, 'pour', 'slump', 'air', 'bleed', 'truck', 'cylinders', 'start')) &&
      (has(items, 'no') ||
        items.some((i) =>
          /(?:todavia no|aun no|not yet|not ready|yet|still|waiting|falta|no hemos|have not|has not|esperando|not quite|ready to)/.test(
            wordOf(i) ?? '',
          ),
        )),
  ],
  [
    'bleeding',
    (_, items, facts) =>
      !facts &&
      (has(items, 'bleeding') || (has(items, 'bleed') && items.some((i) => wordOf(i) === 'still'))) &&
      !has(items, 'no', 'reject') === !has(items, 'reject') &&
      !chatter(items),
  ],
  [
    'planned',
    (_, items, facts) =>
      !facts &&
      !chatter(items) &&
      (has(items, 'plan') ||
        inMinutes(items) ||
        items.some((i, k) => wordOf(i) === 'next' && k === items.length - 1)) &&
      (step(items) || has(items, 'pour-ing', 'rain')),
  ],
  [
    'late',
    (_, items) => has(items, 'late') && items.some((i) => i.is === 'load' || isTerm(i, 'truck', 'load')),
  ],
  ['total', (s, items, facts) => !facts && has(items, 'total') && unit(s, 'u-yd')],
  ['almost', (_, items, facts) => !facts && has(items, 'almost') && step(items) && !chatter(items)],
]

/** A word like `need` alone with water is thirst. */
const bare = (items: readonly Item[]): boolean =>
  items.some((i) => /^(?:bottle|bottles|drink|cold|cooler|jug|hose)$/.test(wordOf(i) ?? ''))

const sackMix = ({ items }: Sentence): boolean =>
  items.some(
    (item, i) =>
      isTerm(item, 'mix') &&
      wordOf(item) === 'mix' &&
      items.slice(Math.max(0, i - 3), i + 4).some((x) => x.is === 'num') &&
      !has(items, 'ask', 'reject', 'temperature'),
  )

const inMinutes = (items: readonly Item[]): boolean =>
  items.some((item, i) => wordOf(item) === 'in' && items[i + 1]?.is === 'num')

/** Added to a fact of the same sentence: the load was called late. */
export const lateNote = (draft: Draft, load: number | undefined): Draft =>
  draft.about === 'late' && load !== undefined ? { ...draft, load } : draft
