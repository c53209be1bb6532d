import { wordOf } from './amounts.ts'
import type { FactKind } from './facts.ts'
import { type Item, isSoft, isTerm } from './items.ts'
import { type Draft, mention, ofSentence, recent, type Sentence } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'

const TESTS: readonly (readonly [Term, FactKind])[] = [
  ['slump', 'reading.slump'],
  ['cone', 'reading.slump'],
  ['air', 'reading.air'],
  ['air-meter', 'reading.air'],
  ['cylinders', 'reading.cylinders'],
  ['density', 'reading.density'],
  ['concrete-temperature', 'reading.concrete_temperature'],
]

/** A plain no for what follows it in its clause: no water, no slump taken, no cylinders. None and not taken are two things. */
export const readNegatives = (sentence: Sentence): void => {
  const { items } = sentence
  let done = -1
  for (let i = 0; i < items.length; i++) {
    const item = items[i]!
    if (i <= done || !isTerm(item, 'no', 'none')) continue
    const end = clauseEnd(items, i)
    const after = items.slice(i + 1, end)
    if (
      after.some((x) => isTerm(x, 'not-yet', 'more', 'plan')) &&
      !after.some((x) => wordOf(x) === 'another')
    )
      continue
    if (after[0]?.is === 'comma' && !isTerm(item, 'none')) continue
    done = Math.max(done, deny(sentence, i, end))
  }
}

/** Where the no ends: at a pause, a number, the next no, or an `and` that begins something else. */
const clauseEnd = (items: readonly Item[], i: number): number => {
  for (let j = i + 1; j < items.length && j < i + 9; j++) {
    const item = items[j]!
    if (item.is === 'comma' || item.is === 'num') return j
    if (isTerm(item, 'no') && j > i + 1 && !isTerm(item, 'none')) return j
    if (isTerm(item, 'and') && !readable(items[j + 1]!) && !isTerm(items[j + 1], 'water')) return j
  }
  return Math.min(items.length, i + 9)
}

/** The last item that the no is of, or -1 where it is of nothing here. */
const deny = (sentence: Sentence, i: number, end: number): number => {
  const { items } = sentence
  const stretch = items.slice(i, end)
  const from = items.findIndex((item) => item.seg === items[i]!.seg && item.is !== 'comma')
  const before = items.slice(Math.max(from, i - 6), i)
  // `don't add any water` is an order.
  if (wordOf(items[i]) === 'not' && wordOf(items[i - 1]) === 'do' && (i < 2 || items[i - 2]!.is === 'comma'))
    return -1
  // `water: none`.
  if (before.length === 0 && items[i - 1]?.is === 'comma' && isTerm(items[i - 2], 'water'))
    before.push(items[i - 2]!)
  if (stretch.some((item) => isTerm(item, 'bleed', 'gone', 'rain'))) return -1
  // `water none`, `added nothing`; `load three none` answers the water question where water is the talk.
  const water =
    stretch.some((item) => isTerm(item, 'water')) ||
    (before.some((item) => isTerm(item, 'water')) && !stretch.some((item) => readable(item)))
  const act =
    (stretch.some(
      (item) => isTerm(item, 'water-act') && !/^(?:put|puso|pusieron|pusimos)$/.test(wordOf(item) ?? ''),
    ) ||
      before.some((item) => isTerm(item, 'water-act'))) &&
    !stretch.some(readable)
  const wet = recent(sentence.talk).some((m) => m.draft.kind === 'load.water_added')
  const answer =
    isTerm(items[i], 'none') &&
    wet &&
    (before.some((item) => item.is === 'load') || before.length === 0) &&
    stretch.length <= 2
  const numbered = sentence.amounts.some((a) => a.at > i && a.at <= end && a.unit === 'u-gal')
  if (stretch.some((item) => isTerm(item, 'tests')) && !water && !act) return noTests(sentence, i)
  if ((water || act || answer) && !numbered) {
    if (
      stretch.some((item) =>
        /^(?:hot|enough|line|hose|pressure|bottle|bottles|drinking|left|hose)$/.test(wordOf(item) ?? ''),
      )
    )
      return -1
    if (
      stretch.some((item) => isTerm(item, 'ask') && !/^(?:add|throw|give|gave)/.test(wordOf(item) ?? '')) &&
      !act
    )
      return -1
    mention(sentence, { kind: 'load.water_added', value: 0, unit: 'gal' }, i)
    for (const [j, item] of items.entries())
      if (j >= i && j < end && isTerm(item, 'water', 'water-act')) sentence.used.add(j)
    const cue = items.findIndex((item, j) => j >= i && j < end && isTerm(item, 'water', 'water-act'))
    return Math.max(cue, i)
  }
  let found = -1
  for (const [term, kind] of TESTS) {
    const at = stretch.findIndex((item) => isTerm(item, term))
    if (at < 0 || sentence.used.has(i + at)) continue
    if (ofSentence(sentence).some((m) => m.draft.kind === kind && m.draft.not_taken)) continue
    // `no slump four` is none of this: the number that follows belongs to it.
    if (
      untilAnd(items, i + at + 1).find((x) => !isSoft(x))?.is === 'num' &&
      items[i + at + 1]?.is !== 'comma' &&
      !isTerm(items[i + at + 1], 'and')
    )
      continue
    sentence.used.add(i + at)
    const draft: Draft =
      kind === 'reading.cylinders' ? { kind, value: 0, unit: 'count' } : { kind, not_taken: true }
    mention(sentence, draft, i + at)
    found = Math.max(found, i + at)
  }
  return found
}

const readable = (item: Item): boolean =>
  isTerm(
    item,
    'slump',
    'air',
    'cylinders',
    'cone',
    'concrete-temperature',
    'density',
    'wind',
    'tests',
    'ticket',
  )

/** `no tests today`, `nobody ran anything`: neither slump nor air was taken. */
const noTests = (sentence: Sentence, i: number): number => {
  const { items } = sentence
  const plain = items.some(
    (item) => isTerm(item, 'tests') && wordOf(item) !== 'anything' && wordOf(item) !== 'testing',
  )
  if (!plain && !items.some((item) => isTerm(item, 'ran'))) return -1
  mention(sentence, { kind: 'reading.slump', not_taken: true }, i)
  mention(sentence, { kind: 'reading.air', not_taken: true }, i)
  return i
}

/** The next few items, no further than an `and` or a pause. */
const untilAnd = (items: readonly Item[], from: number): readonly Item[] => {
  const next = items.slice(from, from + 4)
  const stop = next.findIndex((item) => item.is === 'comma' || isTerm(item, 'and'))
  return stop < 0 ? next : next.slice(0, stop)
}
