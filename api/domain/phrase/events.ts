import { wordOf } from './amounts.ts'
import { giveTimes, type Heard } from './event-times.ts'
import { type EventWord, eventWord } from './event-words.ts'
import type { EventName, Phase } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import type { Draft, Sentence } from './sentence.ts'
import { FINISHING } from './vocabulary/term.ts'

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
    // `vaciamos a las ocho`: began or ended, nobody said.
    if (isTerm(item, 'pour-past')) return { ...made(kind, 'nothing'), draft: { kind, low_confidence: true } }
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
  // Written short, it leads a time or says nothing.
  if (item.is === 'term' && /^(?:arr|in at|out at)$/.test(item.text)) return made(kind, 'nothing')
  // `on the job twenty minutes`: how long, not when.
  const lasts =
    items[at + 1]?.is === 'num' && isTerm(items[at + 2], 'u-min', 'u-hour') && !isTerm(items[at + 3], 'ago')
  if (lasts) return undefined
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
