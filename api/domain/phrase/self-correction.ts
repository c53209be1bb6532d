import type { Amount } from './amounts.ts'
import { clockOfRun, showClock } from './clock.ts'
import { isTerm } from './items.ts'
import { asReading, asTicket, asTruck } from './readings.ts'
import type { Draft, Mention, Sentence } from './sentence.ts'

/** The amount read as what another fact is of. */
export const alike = (draft: Draft, amount: Amount): Draft | undefined => {
  if (draft.kind === 'load.ticket') return asTicket(amount)
  if (draft.kind === 'load.truck') return asTruck(amount)
  if (draft.kind.startsWith('reading.') || draft.kind === 'load.volume' || draft.kind === 'load.water_added')
    return asReading(draft.kind, amount)
  if (draft.at !== undefined) {
    const clock = amount.unit === undefined ? clockOfRun(amount.run) : undefined
    return clock ? { kind: draft.kind, at: showClock(clock) } : undefined
  }
  return undefined
}

/** `scratch that, make it five`, `no, two nineteen`: the last fact that a number fits takes it, in the same breath. */
export const replaceLast = (sentence: Sentence, amount: Amount, by: number): boolean => {
  const { mentions } = sentence.talk
  const pending = sentence.times.findLast((time) => time.clock && time.at < by)
  const last = mentions.at(-1)
  // A time that is not yet with its event comes after every fact that is settled.
  if (
    pending &&
    amount.unit === undefined &&
    (!last || last.sentence !== sentence.number || last.at < pending.at)
  ) {
    const clock = clockOfRun(amount.run)
    if (clock) {
      sentence.times.splice(sentence.times.indexOf(pending), 1, { ...pending, clock })
      sentence.usedAmounts.add(amount)
      return true
    }
  }
  for (let i = mentions.length - 1; i >= Math.max(0, mentions.length - 3); i--) {
    const old = mentions[i]!
    const fresh = alike(old.draft, amount)
    if (!fresh) continue
    apply(old, fresh)
    sentence.usedAmounts.add(amount)
    sentence.used.add(by)
    return true
  }
  return false
}

const apply = ({ draft }: Mention, fresh: Draft): void => {
  const unit = fresh.unit_assumed && draft.unit ? draft.unit : fresh.unit
  delete draft.value
  delete draft.min
  delete draft.max
  delete draft.approx
  delete draft.low_confidence
  const assumed = draft.unit_assumed
  Object.assign(draft, fresh, unit ? { unit } : {})
  if (fresh.unit_assumed && !assumed) delete draft.unit_assumed
}

/** `scratch that` with nothing in its place takes the last fact away. */
export const dropScratched = (sentence: Sentence): void => {
  const { items, talk } = sentence
  const at = items.findIndex(
    (item) =>
      item.is === 'term' &&
      isTerm(item, 'correct') &&
      /^(?:scratch|strike|cancel|erase|forget|delete|disregard|belay|borra)/.test(item.text),
  )
  if (at < 0) return
  if (sentence.amounts.some((a) => a.at > at) || items.slice(at + 1).some((item) => item.is === 'clock'))
    return
  const last = talk.mentions.findLastIndex((m) => m.sentence < sentence.number || m.at < at)
  if (last >= 0) talk.mentions.splice(last, 1)
}
