import { readAmounts } from './amounts.ts'
import { assignAmounts } from './assign.ts'
import { giveLeftTimes, readJustNow, readMethods, readStages } from './attributes.ts'
import { readChange } from './change.ts'
import { markDamage, repairs } from './damage.ts'
import { readEvents } from './events.ts'
import type { Fact, Hearing } from './facts.ts'
import { type Item, isTerm, readItems } from './items.ts'
import { giveLoads } from './loads.ts'
import { readLoose } from './loose.ts'
import { readNegatives } from './negatives.ts'
import { readNotes } from './notes.ts'
import { isQuestion } from './questions.ts'
import { readRejection } from './rejection.ts'
import { dropScratched } from './self-correction.ts'
import { ofSentence, type Sentence, type Talk, type TimeSaid } from './sentence.ts'
import { bySound } from './sound.ts'
import { readTokens, type Token } from './tokens.ts'
import { waterByTheYard, waterStages } from './water.ts'

/**
 * What one utterance proposes: facts with their units, the words that gave nothing, and at most one question where two
 * readings survive. English, Spanish and both at once. Pure, linear in the length of the text; never fails: nonsense gives
 * nothing. Shapes are those of tests/cases/utterances.tsv.
 */
export const readPhrase = (said: string): Hearing => {
  const heard = readTokens(said)
  const tokens = bySound(heard)
  const repaired = repairs(heard, tokens)
  const talk: Talk = { mentions: [], load: undefined, questions: [], unread: [] }
  for (const [number, part] of splitSentences(tokens).entries())
    readSentence(said, part, { number, repaired }, talk)
  const facts = unique(talk.mentions.map(({ draft }) => draft))
  const asked = talk.questions.find((q) => facts.some((fact) => fact.kind === q.about && fact.low_confidence))
  return asked ? { facts, unread: talk.unread, question: asked } : { facts, unread: talk.unread }
}

type Part = { readonly tokens: readonly Token[]; readonly mark: string | undefined }

/** Words that one breath may hold; longer talk without marks is cut there, which keeps the time linear. */
const BREATH = 120

const splitSentences = (tokens: readonly Token[]): Part[] => {
  const parts: Part[] = []
  let from = 0
  for (let i = 0; i <= tokens.length; i++) {
    const token = tokens[i]
    const long = i - from >= BREATH && (token?.is === 'mark' || i - from >= 2 * BREATH)
    const ends = token === undefined || long || (token.is === 'mark' && /^[.!?;\n]$/.test(token.text))
    if (!ends) continue
    if (i > from) parts.push({ tokens: tokens.slice(from, i), mark: token?.text })
    from = token?.is === 'mark' ? i + 1 : i
  }
  return parts
}

type Place = { readonly number: number; readonly repaired: number }

const readSentence = (
  said: string,
  { tokens, mark }: Part,
  { number, repaired }: Place,
  talk: Talk,
): void => {
  const told = withoutQuestion(tokens, mark)
  if (told.length === 0) return
  const items = readItems(told)
  const half = items.some((i) => isTerm(i, 'morning'))
    ? 'am'
    : items.some((i) => isTerm(i, 'evening'))
      ? 'pm'
      : undefined
  const sentence: Sentence = {
    number,
    items,
    amounts: readAmounts(items),
    times: clocks(items),
    talk,
    used: new Set(),
    usedAmounts: new Set(),
    chatter: new Set(items.filter((i) => isTerm(i, 'chatter')).map((i) => i.seg)),
    half,
    said: (from, to) => {
      const first = told[Math.min(from, told.length - 1)]
      const last = told[Math.min(to, told.length) - 1]
      return first && last && from < told.length ? said.slice(first.from, last.to) : ''
    },
  }
  const before = talk.mentions.length
  readChange(sentence)
  const changed = talk.mentions.length > before
  if (!changed) {
    readNegatives(sentence)
    assignAmounts(sentence)
    readLoose(sentence)
    waterByTheYard(sentence)
    readEvents(sentence)
    readRejection(sentence)
    giveLeftTimes(sentence)
    readMethods(sentence)
    waterStages(sentence)
    readStages(sentence)
    readJustNow(sentence)
    readNotes(sentence)
    dropScratched(sentence)
  }
  giveLoads(sentence)
  if (items.some((i) => isTerm(i, 'yesterday')))
    for (const { draft } of ofSentence(sentence)) draft.day = 'yesterday'
  for (const { draft } of ofSentence(sentence))
    if (draft.kind === 'note') draft.text = sentence.said(0, told.length)
  markDamage(sentence, repaired)
  keepUnread(sentence)
}

/** The clause that asks gives nothing; what was told before it in the same breath stays. */
const withoutQuestion = (tokens: readonly Token[], mark: string | undefined): readonly Token[] => {
  if (!isQuestion(tokens, mark)) return tokens
  if (isQuestion(tokens, undefined)) return []
  const comma = tokens.findLastIndex((t) => t.is === 'mark' && t.text === ',')
  if (comma <= 0) return []
  const asks = tokens.slice(comma + 1)
  const numbered = readAmounts(readItems(asks)).length > 0
  return numbered ? [] : tokens.slice(0, comma)
}

const clocks = (items: readonly Item[]): TimeSaid[] =>
  items.flatMap((item, at) =>
    item.is === 'clock'
      ? [{ at, seg: item.seg, clock: item.clock, approx: isTerm(items[at - 1], 'approx', 'by'), used: false }]
      : [],
  )

/** Numbers that nothing took, with the words around them: said back to the speaker, never guessed at. */
const keepUnread = (sentence: Sentence): void => {
  const open = sentence.amounts.filter((a) => !sentence.usedAmounts.has(a))
  for (const amount of open) {
    const words = sentence.said(
      sentence.items[amount.at]!.from,
      sentence.items[Math.max(amount.at, amount.end - 1)]!.to,
    )
    if (words !== '') sentence.talk.unread.push(words)
  }
  for (const time of sentence.times) {
    const item = sentence.items[time.at]!
    if (!time.used && item.is === 'clock') sentence.talk.unread.push(sentence.said(item.from, item.to))
  }
}

/** The same fact said twice in one breath is one fact. */
const unique = (facts: readonly Fact[]): Fact[] => {
  const out: Fact[] = []
  for (const fact of facts) {
    const from = Math.max(0, out.length - 24)
    const same = out.findIndex(
      (other, i) =>
        i >= from &&
        other.kind === fact.kind &&
        other.load === fact.load &&
        other.name === fact.name &&
        other.stage === fact.stage &&
        agrees(other, fact),
    )
    if (same < 0) out.push(fact)
    else if (out[same]!.time === 'not_stated' || (out[same]!.min_ago === 0 && fact.at !== undefined))
      out[same] = fact
  }
  return out
}

const agrees = (a: Fact, b: Fact): boolean => {
  if (a.kind === 'note') return a.about === b.about && a.text === b.text
  if (a.kind === 'event' && a.name === 'rain' && a.phase !== b.phase) return false
  if (a.kind === 'event' || a.kind.endsWith('_at')) {
    if (a.at !== undefined && b.at !== undefined) return a.at === b.at
    return true
  }
  if (a.kind === 'load.water_added') return a.value === 0 && b.value === 0
  return (
    a.value === b.value &&
    a.min === b.min &&
    a.max === b.max &&
    a.not_taken === b.not_taken &&
    a.unit === b.unit
  )
}
