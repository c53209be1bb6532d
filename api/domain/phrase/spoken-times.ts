import { type Amount, wordOf } from './amounts.ts'
import { clockOfRun } from './clock.ts'
import { isTerm } from './items.ts'
import { type Draft, mention, type Sentence } from './sentence.ts'

/** A bare row straight after an event: its time, where it can be one. */
export const timeOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  if (amount.unit !== undefined || amount.split) return false
  const { items } = sentence
  // Of a thing that has a size as well (`in the forms, five and a quarter`) no time.
  const run =
    amount.upTo && amount.run.length === 1 && amount.upTo.length === 1
      ? toHour(amount)
      : clockOfRun(amount.run)
  if (!run) return false
  // One plain number is an hour only where `at` or its like says so.
  const marked =
    isTerm(items[amount.at - 1], 'at', 'by', 'approx') ||
    /^(?:at|till|until|a|to|by|around|about)$/.test(wordOf(items[amount.at - 1]) ?? '')
  if (
    amount.run.length === 1 &&
    !amount.upTo &&
    amount.run[0]!.is !== 'digits' &&
    run.minute === 0 &&
    !marked &&
    amount.run[0]!.value < 100
  ) {
    if (!isTerm(items[cue], 'batched', 'arrived') || amount.at !== cue + 1) return false
  }
  sentence.times.push({
    at: amount.at,
    seg: amount.seg,
    clock: run,
    approx: amount.approx || isTerm(items[amount.at - 1], 'by', 'approx'),
    used: false,
    of: cue,
  })
  sentence.usedAmounts.add(amount)
  sentence.used.add(cue)
  if (amount.upTo && !toHourShape(amount)) {
    const second = clockOfRun(amount.upTo)
    if (second)
      sentence.times.push({
        at: amount.at + 2,
        seg: amount.seg,
        clock: second,
        approx: false,
        used: false,
        second: true,
      })
  }
  return true
}

const toHourShape = (amount: Amount): boolean => {
  const minutes = amount.run[0]?.value ?? 0
  return (
    amount.run.length === 1 && amount.upTo?.length === 1 && minutes % 5 === 0 && minutes > 0 && minutes < 30
  )
}

/** `ten to nine` beside an event is ten minutes before nine; `four to five` there is from four to five. */
const toHour = (amount: Amount) => {
  const minutes = amount.run[0]!.value
  const hour = amount.upTo![0]!.value
  if (!toHourShape(amount) || hour < 1 || hour > 12) return clockOfRun(amount.run)
  return { hour: hour === 1 ? 12 : hour - 1, minute: 60 - minutes }
}

/** Minutes and hours: ago, old, or till something comes. */
export const assignTimeSpan = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  const minutesAgo = amount.unit === undefined && wordOf(items[amount.end]) === 'ago'
  if (amount.unit !== 'u-min' && amount.unit !== 'u-hour' && !minutesAgo) return false
  const size = amount.upTo ? undefined : amount.run.length === 1 ? amount.run[0]!.value : undefined
  if (size === undefined) return false
  const minutes = Math.round(size * (amount.unit === 'u-hour' ? 60 : 1))
  const after = items.slice(amount.end, amount.end + 2)
  const ago =
    isTerm(after[0], 'ago') ||
    items.slice(Math.max(0, amount.at - 3), amount.at).some((i) => isTerm(i, 'ago'))
  const old =
    after.some((i) => isTerm(i, 'old')) || /^(?:tiene|lleva)$/.test(wordOf(items[amount.at - 1]) ?? '')
  if (old) {
    const draft: Draft = { kind: 'load.batched_at', min_ago: minutes, approx: true, derived: true }
    sentence.usedAmounts.add(amount)
    mention(sentence, draft, amount.at)
    return true
  }
  if (!ago) return false
  sentence.times.push({ at: amount.at, seg: amount.seg, minAgo: minutes, approx: amount.approx, used: false })
  sentence.usedAmounts.add(amount)
  return true
}
