import { wordOf } from './amounts.ts'
import { isTerm } from './items.ts'
import { mention, type Sentence } from './sentence.ts'

/** A load that was sent back, with the words that say why; one that almost was is a remark. */
export const readRejection = (sentence: Sentence): void => {
  const { items } = sentence
  const at = items.findIndex(
    (item, i) =>
      isTerm(item, 'reject') ||
      // `turned truck forty-four around`: what was turned stands in between.
      (isTerm(item, 'sent-object') &&
        items.slice(i + 1, i + 7).some((x, k) => isTerm(x, 'sent-back') && k > 0) &&
        items.slice(i + 1, i + 7).some((x) => isTerm(x, 'truck', 'load', 'this') || x.is === 'load')),
  )
  if (at < 0) return
  const close = items.slice(Math.max(0, at - 6), at)
  const kept = items.slice(at + 1).some((item) => isTerm(item, 'accepted'))
  if (kept || close.some((item) => isTerm(item, 'almost'))) {
    mention(sentence, { kind: 'note', about: 'almost' }, at)
    return
  }
  if (
    close.some((item) => isTerm(item, 'plan') && !/^(?:voy a|going to|i am)/.test(wordOf(item) ?? '')) &&
    !isTerm(items[at], 'reject')
  )
    return
  if (
    close.some((item) => isTerm(item, 'no', 'plan') && wordOf(item) !== 'going to') &&
    !/^(?:not|no|would not|did not|will not)/.test(wordOf(items[at]) ?? '')
  )
    return
  const reason = sentence.said(reasonFrom(sentence, at), Number.POSITIVE_INFINITY)
  mention(sentence, reason === '' ? { kind: 'load.rejected' } : { kind: 'load.rejected', reason }, at)
}

/** The first word after the rejection that is no part of it. */
const reasonFrom = ({ items }: Sentence, at: number): number => {
  for (let i = at + 1; i < items.length; i++) {
    const item = items[i]!
    if (item.is === 'comma' || /^(?:because|cause|porque|por|since|was|was|it was)$/.test(wordOf(item) ?? ''))
      return items[item.is === 'comma' ? i + 1 : i]?.from ?? items.at(-1)!.to
  }
  return items.at(-1)!.to
}
