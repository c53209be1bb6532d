import { wordOf } from './amounts.ts'
import { showClock } from './clock.ts'
import { isTerm } from './items.ts'
import { type Draft, mention, ofSentence, type Sentence, type TimeSaid } from './sentence.ts'
import { AREA_BEFORE } from './vocabulary/particles.ts'

/** An event as heard, before it has its time. */
export type Heard = {
  readonly at: number
  readonly seg: number
  readonly draft: Draft
  /** Where no time is said: now, not stated, or no fact at all. */
  readonly without: 'now' | 'not-stated' | 'nothing'
}

/** Each event takes the time next to it: the one after it, else the one before it. */
export const giveTimes = (sentence: Sentence, heard: readonly Heard[]): void => {
  const { times, items } = sentence
  const timed = new Map<Heard, TimeSaid>()
  const bound = (event: Heard, time: TimeSaid): void => {
    timed.set(event, time)
    time.used = true
  }
  const sorted = [...heard].sort((a, b) => a.at - b.at)
  for (const time of times) {
    if (time.used || time.of === undefined) continue
    const exact = sorted.find((event) => event.at === time.of)
    const owner =
      exact ??
      sorted.find(
        (event) => time.of! > event.at && time.of! <= event.at + 4 && items[time.of!]!.seg === event.seg,
      )
    if (owner && !timed.has(owner)) bound(owner, time)
  }
  const leads =
    times[0] !== undefined &&
    sorted[0] !== undefined &&
    times[0].at < sorted[0].at &&
    times.length >= sorted.length
  for (const [i, event] of sorted.entries()) {
    if (timed.has(event)) continue
    const next = sorted[i + 1]?.at ?? Number.POSITIVE_INFINITY
    const previous = sorted[i - 1]?.at ?? -1
    const after = times.find((t) => !t.used && t.at > event.at && t.at < next && t.at - event.at < 12)
    const before = times.findLast(
      (t) => !t.used && t.at < event.at && t.at > previous && event.at - t.at < 12,
    )
    const pick = leads ? (before ?? after) : (after ?? before)
    if (pick && !waterBetween(sentence, event, pick)) bound(event, pick)
  }
  for (const [i, event] of sorted.entries()) {
    const next = sorted[i + 1]
    const shared = next && timed.get(next)
    // `edged and jointed at one ten`: one time for both.
    if (
      !timed.has(event) &&
      event.without === 'not-stated' &&
      shared &&
      next.at - event.at <= 3 &&
      isTerm(items[next.at - 1], 'and')
    )
      timed.set(event, shared)
  }
  for (const event of sorted) {
    const time = timed.get(event)
    if (!time && event.without === 'nothing') continue
    const draft = event.draft
    if (time) setTime(draft, time, sentence.half)
    else if (event.without === 'now') draft.min_ago = 0
    else draft.time = 'not_stated'
    if (time && draft.phase === 'under_way') delete draft.phase
    if (
      draft.kind === 'load.batched_at' &&
      time?.clock &&
      time.clock.hour === 5 &&
      !time.clock.half &&
      !sentence.half
    )
      draft.low_confidence = true
    if (draft.name) area(sentence, event, draft)
    if (draft.name === 'rain' && time) rainSpan(sentence, draft, time)
    mention(sentence, draft, event.at)
  }
}

/** A time that stands with water between it and the event is the water's. */
const waterBetween = (sentence: Sentence, event: Heard, time: TimeSaid): boolean =>
  time.seg !== event.seg &&
  ofSentence(sentence).some((m) => m.draft.kind === 'load.water_added' && m.seg === time.seg)

export const setTime = (draft: Draft, time: TimeSaid, half: Sentence['half']): void => {
  if (time.clock) {
    draft.at = showClock(time.clock, half)
    if (time.clock.odd || time.clock.hour === undefined) draft.low_confidence = true
  } else draft.min_ago = time.minAgo ?? 0
  if (time.approx || time.clock?.approx) draft.approx = true
}

/** `from two thirty to two forty-five` is a beginning and an end. */
const rainSpan = (sentence: Sentence, draft: Draft, time: TimeSaid): void => {
  const second = sentence.times.find(
    (t) =>
      !t.used &&
      t.at > time.at &&
      t.at - time.at <= 3 &&
      t.clock &&
      isTerm(sentence.items[t.at - 1], 'to-or', 'at', 'by'),
  )
  if (!second) return
  second.used = true
  draft.phase = 'start'
  const end: Draft = { kind: 'event', name: 'rain', phase: 'end' }
  setTime(end, second, sentence.half)
  mention(sentence, end, second.at)
}

/** The part of the site that was named with it. */
const area = ({ items }: Sentence, event: Heard, draft: Draft): void => {
  const at = items.findIndex(
    (item, i) => Math.abs(i - event.at) <= 8 && item.seg === event.seg && isTerm(item, 'area'),
  )
  if (at < 0) return
  const word = wordOf(items[at])!
  if (AREA_BEFORE.test(wordOf(items[at - 1]) ?? '') || at > 0) draft.area = word
}
