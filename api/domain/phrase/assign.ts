import { type Amount, codeOf, wordOf } from './amounts.ts'
import { clockOfRun } from './clock.ts'
import { takesTime } from './event-words.ts'
import type { FactKind } from './facts.ts'
import { type Item, isSoft, isTerm } from './items.ts'
import { asReading, asTicket, asTruck } from './readings.ts'
import { replaceLast } from './self-correction.ts'
import { type Draft, mention, ofSentence, type Sentence, sizeSaid } from './sentence.ts'
import type { Term } from './vocabulary/term.ts'
import { addTotal, assignWater } from './water.ts'
import { assignYards } from './yards.ts'

/** How far to either side a number looks for what it is the number of. */
const REACH = 9

type Cue = { readonly at: number; readonly direct: boolean }

const READING_CUES: readonly (readonly [Term, FactKind])[] = [
  ['flow', 'reading.slump_flow'],
  ['slump', 'reading.slump'],
  ['cone', 'reading.slump'],
  ['concrete-temperature', 'reading.concrete_temperature'],
  ['on-concrete', 'reading.concrete_temperature'],
  ['air-temperature', 'reading.air_temperature'],
  ['air-meter', 'reading.air'],
  ['air', 'reading.air'],
  ['concrete', 'reading.concrete_temperature'],
  ['humidity', 'reading.humidity'],
  ['density', 'reading.density'],
  ['wind', 'reading.wind'],
  ['outside', 'reading.air_temperature'],
]

const readingCue = (item: Item | undefined): FactKind | undefined => {
  if (item?.is !== 'term') return undefined
  // `hay aire`, `mucho aire`: wind, whatever else aire may be.
  if (item.terms.has('wind')) return 'reading.wind'
  return READING_CUES.find(([term]) => item.terms.has(term))?.[1]
}

const isCue = (items: readonly Item[], i: number): boolean =>
  readingCue(items[i]) !== undefined ||
  isTerm(
    items[i],
    'truck',
    'ticket',
    'load',
    'water',
    'water-act',
    'temperature',
    'gust',
    'ends',
    'set',
    'last-load',
    'correction-of',
    'cylinders',
    'reject',
    'left-plant',
    'correct',
    'limit',
    'mix',
    'forms',
    'u-yd',
    'u-gal',
  ) ||
  takesTime(items, i)

/** The nearest thing to the left that may want this number: in its clause, or alone in the clause before. */
const cueBefore = ({ items, used }: Sentence, amount: Amount): Cue | undefined => {
  let direct = true
  let crossed = false
  for (let i = amount.at - 1; i >= 0 && i >= amount.at - REACH; i--) {
    const item = items[i]!
    if (item.is === 'comma') {
      // Over a pause only where nothing but the thing itself was said before it: `Time in, seven forty-two`.
      if (i !== amount.at - 1 && !items.slice(i + 1, amount.at).every(isSoft)) return undefined
      crossed = true
      continue
    }
    if (item.is === 'num' || item.is === 'clock') {
      if (item.is === 'num' && isTerm(items[i + 1], 'u-min', 'u-hour')) return undefined
      return undefined
    }
    if (isCue(items, i)) {
      if (used.has(i)) return undefined
      // What already has its number in a clause of its own wants no second one; an event may still want its time.
      const own =
        crossed &&
        !takesTime(items, i) &&
        items
          .slice(Math.max(0, i - REACH), i)
          .some((x) => x.seg === item.seg && (x.is === 'num' || x.is === 'clock'))
      if (own) return undefined
      return { at: i, direct: direct && !(crossed && !takesTime(items, i)) }
    }
    if ((!isSoft(item) && item.is !== 'load') || crossed) direct = false
  }
  return undefined
}

/** What stands straight after the number: `six four air`, `sixty-three on the mud`, `ocho de aire`. */
const cueAfter = ({ items }: Sentence, amount: Amount): Cue | undefined => {
  let i = amount.end
  for (let skipped = 0; skipped < 4; skipped++, i++) {
    const item = items[i]
    if (!item || item.is === 'comma' || item.is === 'num' || item.is === 'clock') return undefined
    if (
      readingCue(item) !== undefined ||
      isTerm(
        item,
        'of-water',
        'temperature',
        'out',
        'water',
        'cylinders',
        'ticket',
        'last-load',
        'correction-of',
      )
    )
      return { at: i, direct: skipped === 0 }
    const word = wordOf(item)
    if (isTerm(item, 'water-act') && word?.endsWith('in')) return { at: i, direct: true }
    if (
      !(
        isTerm(item, 'area-on', 'the', 'a', 'approx', 'u-in', 'between') ||
        (word !== undefined && /^(?:of|de|on|the|for|in|el|la|en|s|is|test|es|even|flat|solid)$/.test(word))
      )
    )
      return undefined
  }
  return undefined
}

const take = (sentence: Sentence, amount: Amount, draft: Draft, cue?: number): true => {
  if (cue !== undefined) {
    sentence.used.add(cue)
    if (isTerm(sentence.items[cue], 'cone', 'air-meter')) draft.method = 'measured'
  }
  sentence.usedAmounts.add(amount)
  mention(sentence, draft, amount.at)
  return true
}

/** Gives each number of the sentence to what it is the number of; what stays open is left for the looser readings. */
export const assignAmounts = (sentence: Sentence): void => {
  for (const amount of sentence.amounts) if (!sentence.usedAmounts.has(amount)) assign(sentence, amount)
}

const assign = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  if (amount.unit === 'foreign' || amount.unit === 'number-bar' || amount.unit === 'u-ft') return false
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
    if (before && fromCue(sentence, amount, before.at, false)) return true
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

/** A word straight before the number that surely takes it, so that what follows has its own number. */
const sentenceWants = (items: readonly Item[], i: number): boolean =>
  readingCue(items[i]) !== undefined ||
  isTerm(
    items[i],
    'truck',
    'ticket',
    'gust',
    'water',
    'water-act',
    'temperature',
    'load',
    'last-load',
    'correct',
  ) ||
  takesTime(items, i)

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
  if (isTerm(item, 'ticket'))
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

/** Air up to twelve and a bit is a content, from twenty a temperature; what lies between is asked. */
const airBySize = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const { items, talk } = sentence
  if (amount.unit === 'u-mph' || amount.unit === 'u-kmh') {
    const wind = asReading('reading.wind', amount)
    return wind ? take(sentence, amount, wind, cue) : false
  }
  const content =
    amount.unit === undefined || amount.unit === 'u-pct' ? asReading('reading.air', amount) : undefined
  const outdoors = asReading('reading.air_temperature', amount)
  if (content && sizeSaid(content) < 13) return take(sentence, amount, content, cue)
  if (content && !outdoors) return take(sentence, amount, { ...content, low_confidence: true }, cue)
  if (!outdoors || isTerm(items[cue], 'air-meter')) return false
  if (content && amount.unit === undefined && (content.value as number) < 20) {
    const low: Draft = { ...content, low_confidence: true }
    talk.questions.push({ about: 'reading.air', readings: [low, { ...outdoors, low_confidence: true }] })
    return take(sentence, amount, low, cue)
  }
  return sizeSaid(outdoors) >= 20 || amount.unit !== undefined ? take(sentence, amount, outdoors, cue) : false
}

/** `slump four five`: a range of four to five, or four and a half; a tap chooses. */
const slumpPair = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const range = asReading('reading.slump', amount)
  if (!range || range.min === undefined) return false
  const low: Draft = { ...range, low_confidence: true }
  const [a, b] = amount.run.map((n) => n.value) as [number, number]
  const { min: _, max: __, ...rest } = low
  sentence.talk.questions.push({
    about: 'reading.slump',
    readings: [low, { ...rest, value: Number(`${a}.${b}`) }],
  })
  return take(sentence, amount, low, cue)
}

/** A temperature of nobody knows what: of the concrete where slump or air were just read, else it is asked. */
const temperatureOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const { talk } = sentence
  const concrete = asReading('reading.concrete_temperature', amount)
  const air = asReading('reading.air_temperature', amount)
  if (sentence.items.some((i) => isTerm(i, 'outside'))) return air ? take(sentence, amount, air, cue) : false
  if (!concrete) return air ? take(sentence, amount, { ...air, low_confidence: true }, cue) : false
  const tested = talk.mentions.some(
    ({ draft }) => draft.kind === 'reading.slump' || draft.kind === 'reading.air',
  )
  if (tested) return take(sentence, amount, concrete, cue)
  const low: Draft = { ...concrete, low_confidence: true }
  if (air)
    talk.questions.push({
      about: 'reading.concrete_temperature',
      readings: [low, { ...air, low_confidence: true }],
    })
  return take(sentence, amount, low, cue)
}

const truckOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
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

const ticketOf = (sentence: Sentence, amount: Amount, cue: number, partial: boolean): boolean => {
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

const addGust = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const wind = asReading('reading.wind', amount)
  const last = ofSentence(sentence).findLast(({ draft }) => draft.kind === 'reading.wind')
  if (!wind || !last) return false
  last.draft.gust = sizeSaid(wind)
  sentence.used.add(cue)
  sentence.usedAmounts.add(amount)
  return true
}

/** `minus point three correction`: what the meter gave stays the value, the corrected figure stands beside it. */
const addCorrection = (sentence: Sentence, amount: Amount): boolean => {
  const last = ofSentence(sentence).findLast(({ draft }) => draft.kind === 'reading.air')
  const size = amount.run.length === 1 ? amount.run[0]!.value : undefined
  if (!last || typeof last.draft.value !== 'number' || size === undefined || size > 2) return false
  last.draft.correction = -size
  last.draft.corrected = Math.round((last.draft.value - size) * 100) / 100
  sentence.usedAmounts.add(amount)
  return true
}

/** A bare row straight after an event: its time, where it can be one. */
const timeOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
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
const assignTimeSpan = (sentence: Sentence, amount: Amount): boolean => {
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

const SIZES: readonly Term[] = ['u-4x8', 'u-6x12']

/** `four cylinders`, `two four-by-eights`, `a set of five cylinders`, `set seven, three cylinders`. */
const assignCylinders = (sentence: Sentence, amount: Amount): boolean => {
  const { items } = sentence
  const size = SIZES.find((unit) => amount.unit === unit)
  if (amount.unit !== 'cylinders' && !size) return false
  const planned = items.some((i) => i.seg === amount.seg && isTerm(i, 'plan', 'ask', 'not-yet'))
  const draft = planned ? undefined : asReading('reading.cylinders', amount)
  if (!draft) return false
  if (size) draft.size = size === 'u-4x8' ? '4x8 in' : '6x12 in'
  const set = items.findIndex((i) => isTerm(i, 'set'))
  const label =
    set < 0 ? undefined : sentence.amounts.find((a) => a.at > set && a.at <= set + 2 && a !== amount)
  if (label) draft.set = codeOf(label.run) ?? ''
  for (const [i, item] of items.entries()) if (isTerm(item, 'cylinders')) sentence.used.add(i)
  return take(sentence, amount, draft)
}

/** What its unit alone says: percent under thirteen is air, degrees after slump and air are the concrete's, miles are wind. */
const fromUnit = (sentence: Sentence, amount: Amount): boolean => {
  const { items, talk } = sentence
  if (amount.unit === 'u-mph' && items.some((i) => isTerm(i, 'wind', 'gust', 'air'))) {
    const wind = asReading('reading.wind', amount)
    return wind ? take(sentence, amount, wind) : false
  }
  if (amount.unit === 'u-deg' || amount.unit === 'u-degc') {
    const outdoors = items.some((i) => isTerm(i, 'outside', 'out', 'wind'))
    const tested = talk.mentions.some(
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
