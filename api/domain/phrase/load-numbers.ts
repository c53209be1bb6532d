import { type Amount, wordOf } from './amounts.ts'
import { clockOfRun } from './clock.ts'
import { isTerm } from './items.ts'
import { asReading, asTicket, asTruck } from './readings.ts'
import { mention, type Sentence } from './sentence.ts'
import { take } from './take.ts'

/** The number of a truck. */
export const truckOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const { run } = amount
  if (amount.unit !== undefined) return false
  // A truck and a ticket in one row, without a word between: the truck comes first, the ticket digit by digit.
  if (run.length > 4) return splitTruck(sentence, amount, cue)
  const draft = asTruck(amount)
  if (!draft) return false
  // `truck's ten fifty-two` may be a time with its event lost.
  const clock = wordOf(sentence.items[amount.at - 1]) === 's' ? clockOfRun(run) : undefined
  if (clock && clock.minute > 0) draft.low_confidence = true
  return take(sentence, amount, draft, cue)
}

const splitTruck = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  for (const size of [2, 3, 1]) {
    const truck = asTruck({ ...amount, run: amount.run.slice(0, size) })
    const ticket = asTicket({ ...amount, run: amount.run.slice(size) })
    if (truck && ticket && String(truck.value).length === 3 && String(ticket.value).length === 5) {
      mention(sentence, { ...ticket, low_confidence: true }, amount.at)
      return take(sentence, amount, { ...truck, low_confidence: true }, cue)
    }
  }
  return false
}

export const ticketOf = (sentence: Sentence, amount: Amount, cue: number, partial: boolean): boolean => {
  const draft = asTicket(amount)
  if (!draft) return ticketYards(sentence, amount, cue)
  if (partial) {
    draft.partial = 'ends_with'
    delete draft.low_confidence
  }
  return take(sentence, amount, draft, cue)
}

/** `ticket says nine`: too short for a ticket's number, so it may be what the ticket says of yards. */
const ticketYards = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  if (amount.unit !== undefined || amount.upTo) return false
  const says = sentence.items.slice(cue, amount.at).some((item) => isTerm(item, 'says', 'on-ticket'))
  const draft = says ? asReading('load.volume', amount) : undefined
  return draft ? take(sentence, amount, { ...draft, low_confidence: true }, cue) : false
}
