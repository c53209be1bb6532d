import { type Amount, codeOf, wordOf } from './amounts.ts'
import { clockOfRun, showClock } from './clock.ts'
import { isSoft, isTerm } from './items.ts'
import { asReading, asTicket, asTruck } from './readings.ts'
import { type Draft, mention, ofSentence, recent, type Sentence, sizeSaid } from './sentence.ts'

/** Numbers that nothing named: what their place in the sentence makes likely. Where it is only likely, it is asked. */
export const readLoose = (sentence: Sentence): void => {
  for (const amount of sentence.amounts) {
    if (
      sentence.usedAmounts.has(amount) ||
      sentence.chatter.has(amount.seg) ||
      amount.unit === 'foreign' ||
      amount.unit === 'number-bar' ||
      amount.unit === 'u-ft' ||
      amount.unit === 'u-psi'
    )
      continue
    const draft =
      subject(sentence, amount) ??
      again(sentence, amount) ??
      sheIsASix(sentence, amount) ??
      itIsForty(sentence, amount) ??
      hesGotTen(sentence, amount) ??
      saysOnTicket(sentence, amount) ??
      fits(sentence, amount)
    if (!draft) {
      atTime(sentence, amount)
      continue
    }
    sentence.usedAmounts.add(amount)
    mention(sentence, draft, amount.at)
  }
}

const before = ({ items }: Sentence, amount: Amount, back = 4) =>
  items
    .slice(Math.max(0, amount.at - back), amount.at)
    .filter((i) => i.seg === amount.seg && i.is !== 'comma')
const endsClause = ({ items }: Sentence, amount: Amount): boolean => {
  const next = items[amount.end]
  return (
    !next ||
    next.is === 'comma' ||
    (isTerm(next, 'to-or') && items[amount.end + 1]?.is !== 'num') ||
    (next.is === 'word' &&
      /^(?:even|flat|now|to|for|then|here|y|ok|okay|solid|boys|guys|all|ready|for)$/.test(next.text)) ||
    isTerm(next, 'now', 'approx', 'and-then', 'ask', 'driver', 'this')
  )
}

/** `seven one three seven one, two eighteen again`; `two eighteen's gone`: numbers that are the subject of a load. */
const subject = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.upTo || before(sentence, amount).some((i) => !isSoft(i)))
    return undefined
  const digits = codeOf(amount.run)
  if (digits === undefined) return undefined
  const spelled = amount.run.length >= 4 && amount.run.filter((n) => n.is === 'digit').length >= 3
  const written =
    amount.run.length === 1 && amount.run[0]!.is === 'digits' && digits.length >= 5 && digits.length <= 8
  const first = items.slice(0, amount.at).every((i) => isSoft(i) || i.is === 'comma')
  if ((spelled || written) && (first || ofSentence(sentence).some((m) => m.draft.kind.startsWith('load.'))))
    return asTicket(amount)
  if (amount.run.length === 1 && amount.run[0]!.value >= 13 && digits.length <= 3)
    return aloneInFront(sentence, amount)
  if (amount.run.length < 2 || digits.length > 4 || digits.length < 3) return undefined
  const next = items.slice(amount.end, amount.end + 3)
  const verb = next.findIndex((i) =>
    isTerm(i, 'arrived', 'left-job', 'empty', 'left', 'here', 'gone', 'again', 'water-act'),
  )
  const near = verb >= 0 && next.slice(0, verb).every((i) => isSoft(i))
  const known =
    wordOf(next[0]) === 'again' && ofSentence(sentence).some((m) => m.draft.kind === 'load.ticket')
  const draft = (near && !isTerm(next[verb], 'again')) || known ? asTruck(amount) : undefined
  // Without a word between, `eight twenty-one got here` may be a time that lost its event.
  if (draft)
    return clockOfRun(amount.run) && verb === 0 && !known ? { ...draft, low_confidence: true } : draft
  return undefined
}

/** `forty-one just backed in`: a truck whose word was lost, most likely. */
const aloneInFront = ({ items }: Sentence, amount: Amount): Draft | undefined => {
  const next = items.slice(amount.end, amount.end + 3)
  const verb = next.findIndex((i) => isTerm(i, 'arrived', 'left-job', 'empty'))
  if (verb < 0 || !next.slice(0, verb).every(isSoft)) return undefined
  const draft = asTruck(amount)
  return draft ? { ...draft, low_confidence: true } : undefined
}

/** `they ran it again and got five`, `after water four`: the reading that was just spoken of. */
const again = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const last = recent(sentence.talk).findLast(
    (m) => /^reading\.(?:slump|air|concrete_temperature)$/.test(m.draft.kind) && !m.draft.not_taken,
  )
  if (!last || amount.unit !== undefined) return undefined
  const { items } = sentence
  const clause = items.slice(Math.max(0, amount.at - 7), amount.at).filter((i) => i.is !== 'comma')
  const near = clause.slice(-4)
  const said =
    near.some((i) => isTerm(i, 'got', 'after-water', 'before-water', 'after', 'before', 'again', 'this')) ||
    items
      .slice(amount.end, amount.end + 2)
      .some((i) => isTerm(i, 'after-water', 'before-water', 'after', 'before', 'now'))
  if (!said || (near.some((i) => isTerm(i, 'at')) && clockOfRun(amount.run) === undefined)) return undefined
  if (
    near.some(
      (i) => i.seg === amount.seg && isTerm(i, 'ask', 'water-act', 'arrived', 'start', 'end', 'chatter'),
    )
  )
    return undefined
  const draft = asReading(last.draft.kind, amount)
  if (!draft) return undefined
  const checked = clause.some((i) => isTerm(i, 'again'))
  if (last.draft.unit && draft.unit_assumed) draft.unit = last.draft.unit
  return checked ? { ...draft, check_test: true } : draft
}

/** `she's a six`, `looks like a four`, `it's about a two and a half`: a slump by eye. */
const sheIsASix = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || !endsClause(sentence, amount)) return undefined
  const lead = before(sentence, amount, 6)
  const article =
    isTerm(items[amount.at - 1], 'a') ||
    /^strong|fat|good|loose|tight$/.test(wordOf(items[amount.at - 1]) ?? '') ||
    isTerm(items[amount.at - 1], 'approx')
  const eye = lead.some((i) => isTerm(i, 'by-eye'))
  const is = lead.some((i) => isTerm(i, 'it-is'))
  if (!article || !(eye || is) || lead.some((i) => isTerm(i, 'chatter', 'plan', 'no'))) return undefined
  if (!eye && !isTerm(items[amount.at - 1], 'a') && !lead.some((i) => isTerm(i, 'a'))) return undefined
  const draft = asReading('reading.slump', amount)
  if (!draft || sizeSaid(draft) > 10) return undefined
  const about = amount.approx || lead.some((i) => isTerm(i, 'approx'))
  return eye || about ? { ...draft, approx: true, method: 'estimated' } : { ...draft, low_confidence: true }
}

/** `it's forty-four, barely any wind`: the air, where wind or weather is the talk; else it is asked. */
const itIsForty = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.run.length > 1 || !endsClause(sentence, amount)) return undefined
  const lead = before(sentence, amount, 3)
  if (
    !lead.some((i) => isTerm(i, 'it-is')) ||
    isTerm(items[amount.at - 1], 'a') ||
    !lead.every((i) => isSoft(i) || isTerm(i, 'it-is'))
  )
    return undefined
  if (/^(?:he|that|we|son|es)/.test(wordOf(lead.find((i) => isTerm(i, 'it-is'))) ?? '')) return undefined
  const draft = asReading('reading.air_temperature', amount)
  if (!draft || sizeSaid(draft) < 20) return undefined
  const weather = items.some((i) => isTerm(i, 'wind', 'little-wind', 'humidity', 'outside', 'rain'))
  return weather ? draft : { ...draft, low_confidence: true }
}

/** `he's got ten even`, `trae nueve`: yards, where nothing else follows. */
const hesGotTen = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.run.length > 1 || amount.upTo || !endsClause(sentence, amount))
    return undefined
  const lead = before(sentence, amount, 3)
  const has = lead.find((i) => isTerm(i, 'has'))
  if (
    !has ||
    isTerm(has, 'it-is') ||
    isTerm(items[amount.at - 1], 'a') ||
    !lead.slice(lead.indexOf(has) + 1).every(isSoft)
  )
    return undefined
  const word = wordOf(has) ?? ''
  const load =
    /he|truck|trae|trajo|carrying|hauling|traia/.test(word) ||
    lead.some(
      (i) => i.is === 'load' || isTerm(i, 'truck', 'driver') || /^(?:he|s|truck)$/.test(wordOf(i) ?? ''),
    )
  if (!load || /^(?:son|with|got)$/.test(word)) return undefined
  const draft = asReading('load.volume', amount)
  return draft ? { ...draft, low_confidence: true } : undefined
}

/** `says eight and a half on the ticket`: yards most likely. */
const saysOnTicket = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.run.length > 1) return undefined
  const on =
    items.slice(amount.end, amount.end + 2).some((i) => isTerm(i, 'on-ticket')) ||
    before(sentence, amount, 2).some((i) => isTerm(i, 'on-ticket'))
  if (!on || !before(sentence, amount).some((i) => isTerm(i, 'says', 'on-ticket', 'it-is'))) return undefined
  const draft = asReading('load.volume', amount)
  return draft ? { ...draft, low_confidence: true } : undefined
}

/** A number after `at` that nothing else wanted may be when the rest happened. */
const atTime = (sentence: Sentence, amount: Amount): void => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.split) return
  if (
    !isTerm(items[amount.at - 1], 'at', 'by') &&
    !/^(?:at|around|by)$/.test(wordOf(items[amount.at - 1]) ?? '')
  )
    return
  const clock = amount.upTo ? undefined : clockOfRun(amount.run)
  if (!clock) return
  sentence.times.push({
    at: amount.at,
    seg: amount.seg,
    clock,
    approx: isTerm(items[amount.at - 1], 'approx'),
    used: false,
  })
  sentence.usedAmounts.add(amount)
}

/**
 * A number alone between pauses, in a breath that is full of readings or of a ticket: what is still missing and what its form
 * fits. Quarters are slump, tenths are air, fifty and more the concrete; quarters beside a ticket are yards. Always asked.
 */
const fits = (sentence: Sentence, amount: Amount): Draft | undefined => {
  const { items } = sentence
  if (amount.unit !== undefined || amount.upTo || amount.split) return undefined
  const alone = items.every(
    (item, i) =>
      item.seg !== amount.seg || item.is === 'comma' || (i >= amount.at && i < amount.end) || isSoft(item),
  )
  if (!alone) return undefined
  const kinds = new Set(recent(sentence.talk).map((m) => m.draft.kind))
  const last = amount.run.at(-1)!
  const tested =
    kinds.has('reading.slump') || kinds.has('reading.air') || kinds.has('reading.concrete_temperature')
  const ticket = kinds.has('load.ticket') || kinds.has('load.truck')
  const quarter = last.is === 'fraction' && amount.run.length === 1
  // Two eighteen is a truck beside a ticket; seven forty-two is when it was batched.
  if (ticket && amount.run.length >= 2 && amount.run.every((n) => n.digits !== undefined)) {
    const clock = clockOfRun(amount.run)
    if (
      clock?.hour !== undefined &&
      clock.hour >= 6 &&
      clock.hour <= 12 &&
      !items.some((i) => isTerm(i, 'batched'))
    )
      return { kind: 'load.batched_at', at: showClock(clock, sentence.half), low_confidence: true }
    const truck = codeOf(amount.run)?.length === 3 && !kinds.has('load.truck') ? asTruck(amount) : undefined
    if (truck) return { ...truck, low_confidence: true }
  }
  const tenth =
    last.is === 'decimal' || (amount.run.length === 2 && amount.run.every((n) => n.is === 'digit'))
  const kind =
    tested && quarter && !kinds.has('reading.slump')
      ? 'reading.slump'
      : tested && tenth && !kinds.has('reading.air')
        ? 'reading.air'
        : tested && amount.run.length === 1 && last.value >= 45 && !kinds.has('reading.concrete_temperature')
          ? 'reading.concrete_temperature'
          : ticket && quarter && !kinds.has('load.volume')
            ? 'load.volume'
            : undefined
  const draft = kind && asReading(kind, amount)
  return draft ? { ...draft, low_confidence: true } : undefined
}
