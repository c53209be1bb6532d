import { type Amount, codeOf, wordOf } from './amounts.ts'
import { isTerm } from './items.ts'
import { asReading } from './readings.ts'
import type { Sentence } from './sentence.ts'
import { take } from './take.ts'
import type { Term } from './vocabulary/term.ts'

const SIZES: readonly Term[] = ['u-4x8', 'u-6x12']

/** `four cylinders`, `two four-by-eights`, `a set of five cylinders`, `set seven, three cylinders`. */
export const assignCylinders = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  const size = SIZES.find((unit) => amount.unit === unit)
  // `cylinders, three of them`.
  const them = amount.unit === 'foreign' && /^of them$/.test(wordOf(items[amount.end - 1]) ?? '')
  const named =
    them &&
    items.slice(Math.max(0, amount.at - 4), amount.at).some((i) => isTerm(i, 'cylinders', 'u-4x8', 'u-6x12'))
  if (amount.unit !== 'cylinders' && !size && !named) return false
  const planned = items.some(
    (i) =>
      i.seg === amount.seg &&
      (isTerm(i, 'plan', 'ask', 'not-yet') || /^(?:broke|break|breaks)$/.test(wordOf(i) ?? '')),
  )
  const draft = planned ? undefined : asReading('reading.cylinders', amount)
  if (!draft) return false
  if (size) draft.size = size === 'u-4x8' ? '4x8 in' : '6x12 in'
  const set = items.findIndex((i) => isTerm(i, 'set'))
  const label =
    set < 0 ? undefined : sentence.amounts.find((a) => a.at > set && a.at <= set + 2 && a !== amount)
  if (label) draft.set = codeOf(label.run) ?? ''
  for (const [i, item] of items.entries()) if (isTerm(item, 'cylinders')) sentence.used.add(i)
  return take(sentence, amount, draft)
}
