import { type Amount, wordOf } from './amounts.ts'
import type { NoteAbout } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import { asReading } from './readings.ts'
import { mention, ofSentence, type Sentence } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'

const clause = (items: readonly Item[], amount: Amount): readonly Item[] =>
  items.filter((item) => item.seg === amount.seg)

/** Yards of this load, or of something else: what is left, out, ordered, short, or the day's total. Those are remarks. */
export const assignYards = (sentence: Sentence, amount: Amount): boolean => {
  if (amount.unit !== 'u-yd' && amount.unit !== 'u-m3') return false
  const { items } = sentence
  const all = clause(items, amount)
  // No further back than an `and`: `we didn't add any water and he's got eight yards`.
  const back = items.findLastIndex((item, i) => i < amount.at && isTerm(item, 'and', 'and-then'))
  const before = items.slice(back + 1, amount.at).filter((item) => item.seg === amount.seg)
  const after = items.slice(amount.end, amount.end + 4).filter((item) => item.seg === amount.seg)
  const has = (list: readonly Item[], ...terms: readonly Term[]) =>
    list.some((item) => isTerm(item, ...terms))
  const size = amount.run.length === 1 ? amount.run[0]!.value : undefined
  const water = ofSentence(sentence).findLast((m) => m.draft.kind === 'load.water_added')
  const nextWater = sentence.amounts.find((a) => a.at > amount.at && a.unit === 'u-gal')
  const left =
    before.some((i) => isTerm(i, 'remain') && wordOf(i) !== 'left') ||
    after.slice(0, 3).some((i) => isTerm(i, 'remain', 'left-over', 'left')) ||
    has(before, 'left-over')
  const out =
    has(before, 'poured-out', 'pour-past', 'after-discharge') ||
    (isTerm(after[0], 'out', 'poured-out', 'pour-past') && !isTerm(after[0], 'remain'))
  const done = (): true => {
    sentence.usedAmounts.add(amount)
    return true
  }
  if ((left || out) && water && water.draft.value !== 0 && size !== undefined && !nextWater) {
    water.draft[left ? 'yd3_left' : 'yd3_out'] = size
    if (amount.approx) water.draft.approx_yd3 = true
    return done()
  }
  const about: NoteAbout | undefined = left
    ? 'left-over'
    : has(all, 'ordered') && (has(before, 'ordered') || has(after, 'ordered')) && !has(before, 'has')
      ? 'ordered'
      : has(all, 'plan') && !has(all, 'truck')
        ? 'planned'
        : has(all, 'total')
          ? 'total'
          : out
            ? 'total'
            : has(before, 'ask')
              ? 'ordered'
              : has(before, 'limit', 'forms')
                ? 'limit'
                : undefined
  if (about) {
    mention(
      sentence,
      {
        kind: 'note',
        about,
        ...(about === 'left-over' && size !== undefined ? { value: size, unit: 'yd3' as const } : {}),
      },
      amount.at,
    )
    return done()
  }
  if (/^(?:light|short|heavy|fat|over|shy|under)$/.test(wordOf(after[0]) ?? '')) {
    mention(sentence, { kind: 'note', about: 'ordered' }, amount.at)
    return done()
  }
  if (wordOf(after[0]) === 'a' && wordOf(after[1]) === 'minute') return false
  const draft = asReading('load.volume', amount)
  if (!draft) return false
  mention(sentence, draft, amount.at)
  return done()
}
