import type { Amount } from './amounts.ts'
import { isTerm } from './items.ts'
import { asReading } from './readings.ts'
import { type Draft, ofSentence, recent, type Sentence, sizeSaid } from './sentence.ts'
import { take } from './take.ts'

/** Air up to twelve and a bit is a content, from twenty a temperature; what lies between is asked. */
export const airBySize = (sentence: Sentence, amount: Amount, cue: number): boolean => {
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
export const slumpPair = (sentence: Sentence, amount: Amount, cue: number): boolean => {
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
export const temperatureOf = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const { talk } = sentence
  const concrete = asReading('reading.concrete_temperature', amount)
  const air = asReading('reading.air_temperature', amount)
  if (sentence.items.some((i) => isTerm(i, 'outside'))) return air ? take(sentence, amount, air, cue) : false
  if (!concrete) return air ? take(sentence, amount, { ...air, low_confidence: true }, cue) : false
  const tested = recent(talk).some(
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

export const addGust = (sentence: Sentence, amount: Amount, cue: number): boolean => {
  const wind = asReading('reading.wind', amount)
  const last = ofSentence(sentence).findLast(({ draft }) => draft.kind === 'reading.wind')
  if (!wind || !last) return false
  last.draft.gust = sizeSaid(wind)
  sentence.used.add(cue)
  sentence.usedAmounts.add(amount)
  return true
}

/** `minus point three correction`: what the meter gave stays the value, the corrected figure stands beside it. */
export const addCorrection = (sentence: Sentence, amount: Amount): boolean => {
  const last = ofSentence(sentence).findLast(({ draft }) => draft.kind === 'reading.air')
  const size = amount.run.length === 1 ? amount.run[0]!.value : undefined
  if (!last || typeof last.draft.value !== 'number' || size === undefined || size > 2) return false
  last.draft.correction = -size
  last.draft.corrected = Math.round((last.draft.value - size) * 100) / 100
  sentence.usedAmounts.add(amount)
  return true
}
