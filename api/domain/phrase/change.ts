import { type Amount, wordOf } from './amounts.ts'
import { clockOfRun, showClock } from './clock.ts'
import type { FactKind } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import { asReading, asTicket, asTruck } from './readings.ts'
import { type Draft, mention, type Sentence } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'

const KINDS: readonly (readonly [Term, FactKind])[] = [
  ['slump', 'reading.slump'],
  ['cone', 'reading.slump'],
  ['concrete-temperature', 'reading.concrete_temperature'],
  ['air-temperature', 'reading.air_temperature'],
  ['air', 'reading.air'],
  ['ticket', 'load.ticket'],
  ['truck', 'load.truck'],
  ['water', 'load.water_added'],
  ['u-gal', 'load.water_added'],
  ['u-yd', 'load.volume'],
  ['batched', 'load.batched_at'],
  ['arrived', 'load.arrived_at'],
  ['empty', 'load.discharge_ended_at'],
  ['start', 'load.discharge_started_at'],
  ['left', 'load.left_at'],
  ['left-job', 'load.left_at'],
]

/**
 * A correction of something said before: `that last slump was supposed to be five, not four`, `change the last water from ten
 * to twelve`. It names what it corrects, and an order to change it, an earlier one, or the wrong value.
 */
export const readChange = (sentence: Sentence): void => {
  const { items, amounts } = sentence
  const at = items.findIndex((item) => isTerm(item, 'change'))
  if (at < 0) return
  const order = /^(?:change|fix|correct|update|edit|switch|revise|amend|go back|cambia|corrig|arregla)/.test(
    wordOf(items[at]) ?? '',
  )
  const earlier = items.some((item, i) => isTerm(item, 'last-one') && i < at)
  const wrong = notAmount(items, amounts)
  const owed = /^(?:should have|should ve|should of|ought|debio|debieron|tenia|debia)/.test(
    wordOf(items[at]) ?? '',
  )
  if (!order && !earlier && !wrong && !owed) return
  const named = KINDS.find(([term]) => items.some((item) => isTerm(item, term)))
  if (!named) return
  const wanted = amounts.filter((a) => a !== wrong)
  const pair = wanted.find((a) => a.upTo)
  const fresh = pair ? { ...pair, run: pair.upTo! } : (wanted.find((a) => a.at > at) ?? wanted.at(-1))
  const kind = named[1]
  const draft = fresh && readAs(kind, strip(fresh), sentence)
  const clock = items.find((item, i) => item.is === 'clock' && i > at && wordOf(items[i - 1]) !== 'not')
  if (!draft && !(clock?.is === 'clock' && kind.endsWith('_at'))) return
  const made: Draft = draft ?? { kind, at: showClock((clock as Item & { is: 'clock' }).clock, sentence.half) }
  made.corrects = true
  if (wanted.length > 1 && !pair) made.low_confidence = true
  const was = pair ? { ...pair } : wrong
  const old = was && readAs(kind, strip(was), sentence)
  const before = old?.value ?? old?.at
  if (before !== undefined) made.was = before
  mention(sentence, made, fresh?.at ?? at)
  for (const amount of amounts) sentence.usedAmounts.add(amount)
  for (const time of sentence.times) time.used = true
  for (const [i, item] of items.entries()) if (item.is === 'term' && !isTerm(item, 'no')) sentence.used.add(i)
}

const strip = ({ upTo: _, ...amount }: Amount): Amount => amount

const readAs = (kind: FactKind, amount: Amount, sentence: Sentence): Draft | undefined => {
  if (kind === 'load.ticket') return asTicket(amount)
  if (kind === 'load.truck') return asTruck(amount)
  if (kind.endsWith('_at')) {
    const clock = clockOfRun(amount.run)
    return clock && { kind, at: showClock(clock, sentence.half) }
  }
  return asReading(kind, amount)
}

/** The amount after `not`: what it was. */
const notAmount = (items: readonly Item[], amounts: readonly Amount[]): Amount | undefined =>
  amounts.find((a) => {
    const back = items[a.at - 1]
    const word = wordOf(isTerm(back, 'a') ? items[a.at - 2] : back) ?? ''
    return /^(?:not|no|instead of|en vez de)$/.test(word)
  })
