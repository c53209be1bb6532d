import { type Amount, codeOf, wordOf } from './amounts.ts'
import { cueAfter, cueBefore, readingCue, sentenceWants } from './cues.ts'
import { assignCylinders } from './cylinders.ts'
import { takesTime } from './event-words.ts'
import { type Item, isTerm } from './items.ts'
import { ticketOf, truckOf } from './load-numbers.ts'
import { asReading } from './readings.ts'
import { replaceLast } from './self-correction.ts'
import { mention, recent, type Sentence, sizeSaid } from './sentence.ts'
import { assignTimeSpan, timeOf } from './spoken-times.ts'
import { take } from './take.ts'
import { addCorrection, addGust, airBySize, slumpPair, temperatureOf } from './test-readings.ts'
import type { Term } from './vocabulary/term.ts'
import { addTotal, assignWater } from './water.ts'
import { assignYards } from './yards.ts'

/** Gives each number of the sentence to what it is the number of; what stays open is left for the looser readings. */
export const assignAmounts = (sentence: Sentence): void => {
  for (const amount of sentence.amounts) if (!sentence.usedAmounts.has(amount)) assign(sentence, amount)
}

const assign = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  if (amount.unit === 'foreign') return assignCylinders(sentence, amount)
  if (amount.unit === 'number-bar' || amount.unit === 'u-ft') return false
  if (assignTimeSpan(sentence, amount)) return true
  if (addTotal(sentence, amount)) return true
  if (asLimit(sentence, amount)) return true
  if (assignCylinders(sentence, amount)) return true
  const before = cueBefore(sentence, amount)
  if (before && isTerm(items[before.at], 'correct') && replaceLast(sentence, amount, before.at)) return true
  const no = items[items[amount.at - 1]?.is === 'comma' ? amount.at - 2 : amount.at - 1]
  if (wordOf(no) === 'no' && replaceLast(sentence, amount, amount.at - 1)) return true
  if (amount.unit === undefined || !['u-yd', 'u-gal', 'u-l', 'u-m3'].includes(amount.unit)) {
    const after = cueAfter(sentence, amount)
    const event =
      before !== undefined && takesTime(items, before.at) && readingCue(items[before.at]) === undefined
    const surely = before?.direct === true && !event && sentenceWants(items, before.at)
    const named = after !== undefined && readingCue(items[after.at]) !== undefined
    const afterFirst = after !== undefined && !surely && (after.direct || !before?.direct || (event && named))
    if (afterFirst && fromCue(sentence, amount, after.at, true)) return true
    // What stood nearest may not want it: `slump test salió cuatro`, where a truck may leave too.
    for (let cue = before, tries = 0; cue && tries < 3; cue = cueBefore(sentence, amount, cue.at), tries++)
      if (fromCue(sentence, amount, cue.at, false)) return true
    if (after && !afterFirst && fromCue(sentence, amount, after.at, true)) return true
  }
  if (assignYards(sentence, amount)) return true
  if (assignWater(sentence, amount, before?.at)) return true
  return fromUnit(sentence, amount)
}

/** `spec calls for a four inch slump`: what is asked of the concrete is no reading of it. */
const asLimit = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  const limit = items.findIndex(
    (item, i) => i < amount.at && item.seg === amount.seg && isTerm(item, 'limit'),
  )
  if (limit < 0 || amount.unit === 'u-gal' || amount.unit === 'u-yd') return false
  sentence.usedAmounts.add(amount)
  mention(sentence, { kind: 'note', about: 'limit' }, amount.at)
  return true
}

const fromCue = (sentence: Sentence, amount: Amount, cue: number, after: boolean): boolean => {
  const { items } = sentence
  const item = items[cue]!
  const kind = readingCue(item)
  const temp = near(items, cue, 'temperature')
  if (isTerm(item, 'gust')) return addGust(sentence, amount, cue)
  if (isTerm(item, 'correction-of')) return addCorrection(sentence, amount)
  if (kind === 'reading.air') return airBySize(sentence, amount, cue)
  if (kind === 'reading.slump' && amount.run.length === 2 && !amount.upTo)
    return slumpPair(sentence, amount, cue)
  if (
    kind === 'reading.concrete_temperature' &&
    after === false &&
    isTerm(item, 'concrete') &&
    isTerm(items[cue - 1], 'u-yd')
  )
    return false
  if (kind !== undefined) {
    const draft = asReading(kind, amount)
    return draft ? take(sentence, amount, draft, cue) : false
  }
  if (isTerm(item, 'out')) {
    const draft =
      amount.unit === 'u-deg' || itIs(items, amount)
        ? asReading('reading.air_temperature', amount)
        : undefined
    return draft && (draft.value as number) >= 20 ? take(sentence, amount, draft, cue) : false
  }
  if (isTerm(item, 'temperature') || temp) return temperatureOf(sentence, amount, cue)
  if (isTerm(item, 'truck')) return truckOf(sentence, amount, cue)
  if (isTerm(item, 'ends')) return ticketOf(sentence, amount, cue, true)
  // `time on the ticket, seven eighteen` is no number of a ticket.
  if (isTerm(item, 'on-ticket') && (codeOf(amount.run)?.length ?? 0) < 5) return false
  if (isTerm(item, 'ticket', 'on-ticket'))
    return ticketOf(
      sentence,
      amount,
      cue,
      items.slice(cue, amount.at).some((i) => isTerm(i, 'ends')),
    )
  if (isTerm(item, 'set')) {
    sentence.used.add(cue)
    sentence.usedAmounts.add(amount)
    return true
  }
  if (isTerm(item, 'last-load')) {
    const draft = asReading('load.volume', amount)
    return draft ? take(sentence, amount, draft, cue) : false
  }
  if (isTerm(item, 'load')) return false
  if (isTerm(item, 'u-yd', 'u-gal') && items[cue - 1]?.is !== 'num' && amount.at - cue <= 2) {
    // `yards is nine`.
    const draft = asReading(isTerm(item, 'u-yd') ? 'load.volume' : 'load.water_added', amount)
    return draft ? take(sentence, amount, draft, cue) : false
  }
  if (isTerm(item, 'water', 'of-water', 'water-act')) return assignWater(sentence, amount, cue)
  if (takesTime(items, cue)) return timeOf(sentence, amount, cue)
  return false
}

const near = (items: readonly Item[], i: number, term: Term): boolean => isTerm(items[i], term)

const itIs = (items: readonly Item[], amount: Amount): boolean =>
  items.slice(Math.max(0, amount.at - 3), amount.at).some((item) => isTerm(item, 'it-is'))

/** What its unit alone says: percent under thirteen is air, degrees after slump and air are the concrete's, miles are wind. */
const fromUnit = (sentence: Sentence, amount: Amount): boolean => {
  const { items, talk } = sentence
  if (amount.unit === 'u-mph' && items.some((i) => isTerm(i, 'wind', 'gust', 'air'))) {
    const wind = asReading('reading.wind', amount)
    return wind ? take(sentence, amount, wind) : false
  }
  if (amount.unit === 'u-deg' || amount.unit === 'u-degc') {
    const outdoors = items.some((i) => isTerm(i, 'outside', 'out', 'wind'))
    const tested = recent(talk).some(
      ({ draft }) => draft.kind === 'reading.slump' || draft.kind === 'reading.air',
    )
    const kind =
      !outdoors && (tested || items.some((i) => isTerm(i, 'concrete')))
        ? 'reading.concrete_temperature'
        : 'reading.air_temperature'
    const draft = asReading(kind, amount)
    if (!draft) return false
    return take(sentence, amount, outdoors ? draft : { ...draft, low_confidence: true })
  }
  if (amount.unit === 'u-pct') {
    const air = asReading('reading.air', amount)
    if (air && sizeSaid(air) < 13) return take(sentence, amount, { ...air, low_confidence: true })
  }
  return false
}
