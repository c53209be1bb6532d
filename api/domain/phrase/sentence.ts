import type { Amount } from './amounts.ts'
import type { Clock } from './clock.ts'
import type { Fact, Question } from './facts.ts'
import type { Item } from './items.ts'

export type Draft = { -readonly [K in keyof Fact]: Fact[K] }

/** The size of a reading, the upper end of a range. */
export const sizeSaid = ({ value, max }: Draft): number =>
  typeof value === 'number' ? value : (max ?? Number.NaN)

/** A fact where it was said. */
export type Mention = {
  readonly draft: Draft
  readonly at: number
  readonly seg: number
  readonly sentence: number
}

/** A time where it was said: of day, or so many minutes ago. */
export type TimeSaid = {
  readonly at: number
  readonly seg: number
  readonly clock?: Clock
  readonly minAgo?: number
  readonly approx: boolean
  /** The second end of `from … to …`. */
  readonly second?: true
  used: boolean
  /** The event that it stands next to, where that is plain. */
  readonly of?: number
}

/** What the sentences of one utterance leave behind for the next. */
export type Talk = {
  readonly mentions: Mention[]
  load: number | undefined
  readonly questions: Question[]
  readonly unread: string[]
}

/** One sentence under work. */
export type Sentence = {
  readonly number: number
  readonly items: readonly Item[]
  readonly amounts: readonly Amount[]
  readonly times: TimeSaid[]
  readonly talk: Talk
  /** Items that already have their number. */
  readonly used: Set<number>
  readonly usedAmounts: Set<Amount>
  /** Clauses of talk that has nothing to do with the work. */
  readonly chatter: ReadonlySet<number>
  readonly half: Clock['half']
  /** The words of a stretch of items, as said. */
  readonly said: (from: number, to: number) => string
}

export const mention = (sentence: Sentence, draft: Draft, at: number): Mention => {
  const made = { draft, at, seg: sentence.items[at]?.seg ?? 0, sentence: sentence.number }
  sentence.talk.mentions.push(made)
  return made
}

/** What this sentence has given so far. Mentions stand in the order of their sentences, so the rest need not be looked at. */
export const ofSentence = ({ number, talk }: Sentence): Mention[] => {
  const { mentions } = talk
  let from = mentions.length
  while (from > 0 && mentions[from - 1]!.sentence >= number) from -= 1
  return mentions.slice(from)
}

/** How far back talk is remembered: further than anybody refers to in a breath. */
const MEMORY = 24

/** The mentions that a sentence may still refer to. */
export const recent = ({ mentions }: Talk): readonly Mention[] => mentions.slice(-MEMORY)
