import type { Fact, Hearing, Question } from './facts.ts'
import { readPhrase } from './read-phrase.ts'

/** What this job makes likely: numbers of tickets and trucks that are due or were here before. */
export type JobWords = { readonly tickets?: readonly string[]; readonly trucks?: readonly string[] }

/** A second value with this share of the first one's weight is asked too. Source: our choice. */
const RIVAL = 0.35

/** Readings beyond this many of one utterance are not looked at. */
const MOST = 8

/**
 * One utterance as a recogniser heard it several ways, best first. Each way is read; a value that most ways agree on stands,
 * one that another way rivals is asked with both, and a ticket or truck that is a digit off a number that this job knows is
 * asked too. At most one question. Never fails.
 */
export const readBest = (ways: readonly string[], job: JobWords = {}): Hearing => {
  const read = ways.slice(0, MOST).map(readPhrase)
  const [first] = read
  if (!first) return { facts: [], unread: [] }
  const votes = countVotes(read, job)
  const questions: Question[] = first.question ? [first.question] : []
  const facts = [...votes.values()].flatMap((vote) => settle(vote, questions, job))
  const question = questions.find((q) => facts.some((fact) => fact.kind === q.about && fact.low_confidence))
  return { facts, unread: first.unread, ...(question ? { question } : {}) }
}

type Choice = { readonly fact: Fact; weight: number }
type Vote = { readonly choices: Map<string, Choice>; total: number; readonly all: number }

/** Earlier ways weigh more; a number that the job knows weighs double. */
const countVotes = (read: readonly Hearing[], job: JobWords): Map<string, Vote> => {
  const votes = new Map<string, Vote>()
  const all = read.reduce((sum, _, rank) => sum + weightOf(rank), 0)
  for (const [rank, { facts }] of read.entries()) {
    const seen = new Map<string, number>()
    for (const fact of facts) {
      const plain = slotOf(fact)
      const nth = seen.get(plain) ?? 0
      seen.set(plain, nth + 1)
      const slot = `${plain} ${nth}`
      const vote = votes.get(slot) ?? { choices: new Map(), total: 0, all }
      votes.set(slot, vote)
      const weight = weightOf(rank) * (known(fact, job) ? 2 : 1) * (fact.low_confidence ? 0.6 : 1)
      const value = valuesOf(fact)
      const choice = vote.choices.get(value)
      if (choice) choice.weight += weight
      else vote.choices.set(value, { fact, weight })
      vote.total += weightOf(rank)
    }
  }
  return votes
}

const weightOf = (rank: number): number => 1 / (rank + 2)

/** What must be one fact in every way: the kind and what it is of; how many there are of it goes by their order. */
const slotOf = ({ kind, name, stage, about }: Fact): string => [kind, name, stage, about].join(' ')
const valuesOf = ({ value, min, max, unit, at, min_ago, time, not_taken, load, phase }: Fact): string =>
  [value, min, max, unit, at, min_ago, time, not_taken, load, phase].join(' ')

const known = ({ kind, value }: Fact, { tickets = [], trucks = [] }: JobWords): boolean =>
  (kind === 'load.ticket' && tickets.includes(String(value))) ||
  (kind === 'load.truck' && trucks.includes(String(value)))

const settle = ({ choices, total, all }: Vote, questions: Question[], job: JobWords): Fact[] => {
  const [best, second] = [...choices.values()].sort((a, b) => b.weight - a.weight)
  // Heard in less than half of the ways: more likely noise than fact.
  if (!best || total < all / 2) return []
  const { fact } = best
  if (second && second.weight > best.weight * RIVAL) {
    questions.unshift({ about: fact.kind, readings: [unsure(fact), unsure(second.fact)] })
    return [unsure(fact)]
  }
  const near = known(fact, job) ? undefined : nearKnown(fact, job)
  if (near !== undefined) {
    questions.unshift({ about: fact.kind, readings: [unsure({ ...fact, value: near }), unsure(fact)] })
    return [unsure(fact)]
  }
  // Agreement heals doubt: all ways said the same.
  return [fact]
}

const unsure = (fact: Fact): Fact => ({ ...fact, low_confidence: true })

/** The one number of this job that a digit more, less or other would make of what was heard. */
const nearKnown = (
  { kind, value, partial }: Fact,
  { tickets = [], trucks = [] }: JobWords,
): string | undefined => {
  if (partial || typeof value !== 'string') return undefined
  const list = kind === 'load.ticket' ? tickets : kind === 'load.truck' && value.length > 2 ? trucks : []
  const near = list.filter((one) => oneOff(one, value))
  return near.length === 1 ? near[0] : undefined
}

/** Whether two rows of digits differ by one digit: another one, one more, or one less. */
const oneOff = (a: string, b: string): boolean => {
  if (Math.abs(a.length - b.length) > 1 || a === b) return false
  let i = 0
  while (i < a.length && a[i] === b[i]) i += 1
  return a.slice(a.length >= b.length ? i + 1 : i) === b.slice(b.length >= a.length ? i + 1 : i)
}
