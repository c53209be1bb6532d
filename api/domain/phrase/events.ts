import { wordOf } from './amounts.ts'
import { showClock } from './clock.ts'
import { type EventWord, eventWord } from './event-words.ts'
import type { EventName, Phase } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import { type Draft, mention, ofSentence, type Sentence, type TimeSaid } from './sentence.ts'
import { AREA_BEFORE } from './vocabulary/particles.ts'
import { FINISHING } from './vocabulary/term.ts'

type Heard = {
  readonly at: number
  readonly seg: number
  readonly draft: Draft
  /** Where no time is said: now, not stated, or no fact at all. */
  readonly without: 'now' | 'not-stated' | 'nothing'
}

const near = (
  items: readonly Item[],
  from: number,
  to: number,
  ...terms: Parameters<typeof isTerm>[1][]
): number => {
  for (let i = Math.max(0, from); i < Math.min(items.length, to); i++)
    if (isTerm(items[i], ...terms)) return i
  return -1
}

/** What happened, each with the time that was said for it. */
export const readEvents = (sentence: Sentence): void => {
  const heard: Heard[] = []
  const { items } = sentence
  for (let i = 0; i < items.length; i++) {
    if (sentence.chatter.has(items[i]!.seg)) continue
    const bleed = readBleed(items, i)
    if (bleed) {
      heard.push(bleed)
      i = bleed.to - 1
      continue
    }
    const word = eventWord(items, i)
    if (!word) continue
    const event =
      'name' in word.what ? readFinishing(items, word, word.what.name) : readLoadEvent(items, word)
    if (event) {
      heard.push(event)
      i = Math.max(i, event.to - 1)
    }
  }
  giveTimes(sentence, heard)
}

type Read = Heard & { readonly to: number }

const TOMORROW = /^(?:tomorrow|manana|pasado manana|next week|tonight)/
const MILD = /^(?:by|maybe|could|would|if|should|need|want|go ahead)$/

/** Planned, wished or nearly: a word for it before it in its clause, or tomorrow anywhere. */
const isFuture = (items: readonly Item[], i: number): boolean => {
  if (items.some((item) => isTerm(item, 'plan') && TOMORROW.test(wordOf(item) ?? ''))) return true
  for (let j = i - 1; j >= 0 && j >= i - 5 && items[j]!.seg === items[i]!.seg; j--) {
    const item = items[j]!
    if (isTerm(item, 'and', 'water') || item.is === 'num') return false
    if (
      isTerm(item, 'plan', 'almost', 'ask') &&
      !isTerm(item, 'approx', 'ordered', 'minutes-out') &&
      !MILD.test(wordOf(item) ?? '')
    )
      return true
  }
  return false
}

/** A no before it in its clause, that is not the no of something else: `no water and started pouring` began. */
const isDenied = (items: readonly Item[], i: number): boolean => {
  const { seg } = items[i]!
  for (let j = i - 1; j >= 0 && j >= i - 5 && items[j]!.seg === seg; j--) {
    const item = items[j]!
    if (isTerm(item, 'and', 'water', 'slump', 'air', 'cylinders') || item.is === 'num') return false
    if (!isTerm(item, 'no', 'not-yet') || wordOf(item) === 'ya puede') continue
    // `we didn't start till ten` tells when it started.
    return !items.slice(i).some((x) => x.seg === seg && /^(?:till|until|hasta)/.test(wordOf(x) ?? ''))
  }
  return false
}

/** `bleed water's gone`, `water's off`, `ya se secó el agua`. */
const readBleed = (items: readonly Item[], i: number): Read | undefined => {
  const item = items[i]!
  const { seg } = item
  const base = {
    at: i,
    seg,
    draft: { kind: 'event', name: 'bleed_water_gone' } as Draft,
    without: 'now' as const,
  }
  const sameSeg = (j: number) => j >= 0 && items[j]!.seg === seg
  if (isTerm(item, 'bleed', 'water') && !isTerm(item, 'of-water')) {
    const gone = near(items, i + 1, i + 5, 'gone')
    const back = near(items, i - 4, i, 'gone')
    const at = sameSeg(gone) ? gone : sameSeg(back) ? back : -1
    if (at < 0 || isDenied(items, i) || isDenied(items, at) || isFuture(items, i)) return undefined
    if (isTerm(item, 'water') && items.slice(i, at).some((x) => x.is === 'num')) return undefined
    return { ...base, to: Math.max(i, at) + 1 }
  }
  const alone =
    /^(?:dejo|paro|termino) de (?:sangrar|sudar)|ya no (?:sangra|suda|brilla)|se fue el agua/.test(
      wordOf(item) ?? '',
    )
  return alone ? { ...base, to: i + 1 } : undefined
}

/** A step of the finishing: under way, done, begun, or only named. */
const readFinishing = (items: readonly Item[], word: EventWord, name: EventName): Read | undefined => {
  const { at, seg, form } = word
  if (isDenied(items, at) || isFuture(items, at)) return undefined
  const inSeg = (i: number) => i >= 0 && items[i]!.seg === seg
  const start = near(items, at - 4, at, 'start')
  const startAfter = near(items, at + 1, at + 4, 'start')
  const end = near(items, at - 5, at, 'end')
  const endAfter = near(
    items,
    at + 1,
    at + 5,
    'end',
    ...(form === 'thing' && name !== 'rain' ? (['is-in'] as const) : []),
  )
  const esta = near(items, at - 3, at, 'is-in')
  const just = near(items, at - 5, at, 'just') >= 0
  const now = near(items, at - 3, at + 6, 'now') >= 0
  const draft: Draft = { kind: 'event', name }
  const made = (phase: Phase | undefined, without: Heard['without']): Read => ({
    at,
    seg,
    draft: phase ? { ...draft, phase } : draft,
    without,
    to: at + 1,
  })
  // `starting edges in five`: not begun.
  const inMinutes = items
    .slice(at + 1, at + 4)
    .some((item, k) => wordOf(item) === 'in' && items[at + 2 + k]?.is === 'num')
  if (inMinutes || (form !== 'done' && wordOf(items[at + 1]) === 'next')) return undefined
  if (inSeg(start) || (inSeg(startAfter) && form === 'thing'))
    return made('start', form === 'going-on' || form === 'thing' ? 'now' : 'not-stated')
  if (inSeg(end))
    return made(
      'end',
      /^(?:is done|all done|done|just)/.test(wordOf(items[end]) ?? '') ||
        just ||
        now ||
        name === 'rain' ||
        /^(?:paro|dejo)/.test(wordOf(items[end]) ?? '')
        ? 'now'
        : 'not-stated',
    )
  if (form === 'going-on') return made('under_way', 'now')
  if (form === 'done')
    return just
      ? made('end', 'now')
      : made(inSeg(endAfter) && !isPlainOn(items, endAfter) ? 'end' : undefined, now ? 'now' : 'not-stated')
  if (inSeg(endAfter))
    return made(
      'end',
      /^(?:stopped|quit|ended|let up|stops|quits)$/.test(wordOf(items[endAfter]) ?? '') && name !== 'rain'
        ? 'not-stated'
        : 'now',
    )
  if (
    inSeg(esta) &&
    name !== 'rain' &&
    /^(?:esta|estan|ya esta|ya estan)$/.test(wordOf(items[esta]) ?? '') &&
    just
  )
    return made('end', 'now')
  if (inSeg(esta) && /^ya esta/.test(wordOf(items[esta]) ?? '') && name !== 'rain') return made('end', 'now')
  if (name === 'rain' && now) return made('under_way', 'now')
  return name === 'rain' ? undefined : made(undefined, 'nothing')
}

const isPlainOn = (items: readonly Item[], i: number): boolean =>
  /^(?:on|in|down|at)$/.test(wordOf(items[i]) ?? '')

const stepOf = (item: Item): EventName | undefined =>
  FINISHING.find((name) => isTerm(item, name, `${name}-ing`, `${name}-past`))

const LOAD_SUBJECT = /^(?:he|truck|mixer|driver|load|and|trompo|camion|olla|one|hes|him)$/

const readLoadEvent = (items: readonly Item[], word: EventWord): Read | undefined => {
  const { at, seg, form } = word
  const kind = 'kind' in word.what ? word.what.kind : 'load.arrived_at'
  const item = items[at]!
  const inSeg = (i: number) => i >= 0 && items[i]!.seg === seg
  const draft: Draft = { kind }
  const made = (made: Draft['kind'], without: Heard['without'], to = at + 1): Read => ({
    at,
    seg,
    draft: { ...draft, kind: made },
    without,
    to,
  })
  const just = inSeg(near(items, at - 4, at, 'just'))
  const now = inSeg(near(items, at - 2, at + 5, 'now'))
  // `ya puede llegar`: may come is not came.
  if (wordOf(item) === 'llegar' && !just) return undefined
  if (isTerm(item, 'start', 'end')) return startOrEnd(items, word, just || now)
  if (isDenied(items, at) || isFuture(items, at)) return undefined
  if (kind === 'load.batched_at') {
    return made(kind, just ? 'now' : 'nothing')
  }
  if (form === 'thing') {
    // `here` and `left` say much else: only beside a load or a time.
    const who = items[/^(?:s|is|are)$/.test(wordOf(items[at - 1]) ?? '') ? at - 2 : at - 1]
    const stands =
      who !== undefined &&
      (who.is === 'load' ||
        (who.is === 'num' && who !== items[at - 1]) ||
        isTerm(who, 'truck', 'driver', 'load') ||
        /^(?:he s|she s|he is)$/.test(wordOf(who) ?? ''))
    if (isTerm(item, 'here')) return made(kind, just || stands ? 'now' : 'nothing')
    const subject = items
      .slice(Math.max(0, at - 3), at)
      .some(
        (x) =>
          x.seg === seg &&
          ((x.is === 'term' && isTerm(x, 'truck', 'driver', 'load')) ||
            x.is === 'load' ||
            LOAD_SUBJECT.test(wordOf(x) ?? '')),
      )
    const first = items[at - 1] === undefined || items[at - 1]!.is === 'comma'
    const alone = items[at + 1] === undefined || items[at + 1]!.is === 'comma'
    return made(
      kind,
      subject && alone ? (just ? 'now' : 'not-stated') : subject || first ? 'nothing' : 'nothing',
    )
  }
  if (form === 'going-on') {
    // `pouring` is the start where nothing else is said of it.
    const end = near(items, at - 4, at, 'end')
    if (inSeg(end)) return undefined
    if (isTerm(items[at + 1], 'rain') || wordOf(items[at + 1]) === 'rain') return undefined
    return made(kind, 'now')
  }
  if (form === 'state') return made(kind, 'now')
  return made(kind, just || now ? 'now' : 'not-stated')
}

/** `started` and `done` by what follows: the pour of a load, or by themselves beside a time. */
const startOrEnd = (items: readonly Item[], word: EventWord, now: boolean): Read | undefined => {
  const { at, seg } = word
  const item = items[at]!
  const begins = isTerm(item, 'start')
  const pour = items.findIndex(
    (x, i) => i > at && i <= at + 4 && x.seg === seg && isTerm(x, 'pour', 'pour-ing', 'pour-past', 'empty'),
  )
  const between = pour < 0 ? [] : items.slice(at + 1, pour)
  const other = items
    .slice(at + 1, at + 5)
    .some(
      (x) =>
        x.seg === seg &&
        x.is === 'term' &&
        [...x.terms].some((t) =>
          /^(?:strike_off|float|edging|jointing|broom|cure_applied|saw_cut|rain|bleed)/.test(t),
        ),
    )
  if (isDenied(items, at)) return undefined
  const future = isFuture(items, at)
  const kind = begins ? 'load.discharge_started_at' : 'load.discharge_ended_at'
  const own = !between.some(
    (x) => x.is === 'num' || x.is === 'clock' || stepOf(x) !== undefined || isTerm(x, 'start', 'and'),
  )
  if (pour >= 0 && own) {
    if (future) return undefined
    const present =
      begins &&
      /^(?:starting|starting to|beginning|beginning to|just starting|empezando|empezando a|comenzando)/.test(
        wordOf(item) ?? '',
      )
    const done = !begins && /^(?:done|all done|is done|got done|through|acab\w+ de)/.test(wordOf(item) ?? '')
    return { at, seg, draft: { kind }, without: now || present || done ? 'now' : 'not-stated', to: pour + 1 }
  }
  if (other || future) return undefined
  // `rain started at three and quit at four`: the step that was named before goes on.
  const step = items.findLastIndex((x, i) => i < at && i >= at - 12 && stepOf(x) !== undefined)
  if (step >= 0 && stepOf(items[step]!) !== undefined) {
    if (at - step <= 4 && items[step]!.seg === seg) return undefined
    return {
      at,
      seg,
      draft: { kind: 'event', name: stepOf(items[step]!)!, phase: begins ? 'start' : 'end' },
      without: 'nothing',
      to: at + 1,
    }
  }
  // Bare `started nine forty-five`: a time and nothing else beside it.
  return { at, seg, draft: { kind }, without: 'nothing', to: at + 1 }
}

/** Each event takes the time next to it: the one after it, else the one before it. */
const giveTimes = (sentence: Sentence, heard: readonly Heard[]): void => {
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
    if (draft.name === 'rain' && time) rainSpan(sentence, event, draft, time)
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
const rainSpan = (sentence: Sentence, event: Heard, draft: Draft, time: TimeSaid): void => {
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
  void event
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
