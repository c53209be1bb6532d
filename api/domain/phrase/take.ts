import type { Amount } from './amounts.ts'
import { isTerm } from './items.ts'
import { type Draft, mention, type Sentence } from './sentence.ts'

/** The number has found what it is the number of. */
export const take = (sentence: Sentence, amount: Amount, draft: Draft, cue?: number): true => {
  if (cue !== undefined) {
    sentence.used.add(cue)
    if (isTerm(sentence.items[cue], 'cone', 'air-meter')) draft.method = 'measured'
  }
  sentence.usedAmounts.add(amount)
  mention(sentence, draft, amount.at)
  return true
}
