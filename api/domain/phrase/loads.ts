import { ofSentence, type Sentence } from './sentence.ts'

/**
 * Which load each fact is of, only where it was said: the load named last before it; else the first one named after it, in its
 * own clause, or in a clause that says nothing else (`that's load two`).
 */
export const giveLoads = (sentence: Sentence): void => {
  const { items, talk } = sentence
  const named = items.flatMap((item, at) =>
    item.is === 'load' ? [{ at, load: item.load, seg: item.seg }] : [],
  )
  const facts = ofSentence(sentence)
  for (const { draft, at, seg } of facts) {
    const before = named.filter((n) => n.at <= at)
    const after = named.find((n) => n.at > at)
    const own =
      after &&
      (after.seg === seg || (!facts.some((f) => f.seg === after.seg && f.at !== at) && named[0] === after))
    // A load at the end of the clause before belongs there: `slump four on load two, load three was five`.
    const here =
      before.at(-1)?.seg === seg ? before.at(-1)?.load : after?.seg === seg ? after.load : undefined
    const load = here ?? before.at(-1)?.load ?? (own ? after.load : undefined) ?? talk.load
    if (
      load !== undefined &&
      draft.kind !== 'reading.wind' &&
      draft.kind !== 'reading.humidity' &&
      !(draft.kind === 'reading.air_temperature')
    ) {
      if (draft.kind === 'event') continue
      if (draft.kind === 'note' && draft.about !== 'late') continue
      draft.load = load
    }
  }
  const last = named.at(-1)
  if (last) talk.load = last.load
}
