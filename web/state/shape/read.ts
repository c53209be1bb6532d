import { type BodyOf, KINDS, type Kind } from '../../../api/domain/entry/registry.ts'
import type { LocalTime } from '../../../api/domain/time.ts'
import { compare, inUnit, type Quantity, readNumber, SIGNED_TEXT } from '../../../api/domain/units.ts'
import { lastTimeAt, nextTimeAt, readClock, timeOnDay } from '../clock-text.ts'
import { clockMark } from '../field-mark.ts'
import { readQuantity, withDecimalPoint } from '../quantity-text.ts'
import { tidyRemark } from '../remark-text.ts'
import { type Answer, type Answers, isBlank } from './answer.ts'
import type { FieldShape, Shape } from './shape.ts'

/** Why a field can't be saved as it stands. */
export type ShapeMark = 'open' | 'unreadable' | 'too-long'
/** By the way to the field: `taking/sampledAt`, `places/0/part`. */
export type Marks = ReadonlyMap<string, ShapeMark>

/** Where and when a form is filled in. `ahead` where its clock times lie before us and not behind. */
export type Around = {
  readonly now: number
  readonly zone: string
  readonly lang: string
  readonly ahead: boolean
}

export type BodyRead =
  | {
      readonly is: 'body'
      readonly body: Readonly<Record<string, unknown>>
      readonly unusual: ReadonlySet<string>
    }
  | { readonly is: 'open'; readonly marks: Marks; readonly unusual: ReadonlySet<string> }

/** The value of an answer, undefined where it is not recorded; what can't be read is marked. */
type Reading = {
  readonly around: Around
  readonly marks: Map<string, ShapeMark>
  /** Outside what the field plainly has: looked at again, never refused. */
  readonly unusual: Set<string>
}

/** The members of a body that these answers give. Nothing is filled in for anyone. */
export const readFields = (fields: readonly FieldShape[], answers: Answers, around: Around): BodyRead => {
  const reading: Reading = { around, marks: new Map(), unusual: new Set() }
  const body = fieldsValue(fields, answers, '', reading)
  return reading.marks.size > 0
    ? { is: 'open', marks: reading.marks, unusual: reading.unusual }
    : { is: 'body', body, unusual: reading.unusual }
}

/** What the kind itself still asks of a whole body, such as one end at least of a range. */
export const wholeBody = <K extends Kind>(
  kind: K,
  body: object,
): { readonly body: BodyOf<K> } | { readonly marks: Marks } => {
  const read = KINDS[kind].today.safeParse(body)
  if (read.success) return { body: body as BodyOf<K> }
  return { marks: new Map(read.error.issues.map((one) => [one.path.join('/'), 'open' as const])) }
}

const fieldsValue = (
  fields: readonly FieldShape[],
  answers: Answers,
  under: string,
  reading: Reading,
): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    fields.flatMap(({ name, optional, shape }) => {
      const answer = answers[name]
      if (shape.is !== 'fixed' && optional && isBlank(answer)) return []
      const value = valueIn(shape, answer, under + name, reading)
      return value === undefined ? [] : [[name, value]]
    }),
  )

const mark = ({ marks }: Reading, path: string, as: ShapeMark): undefined => {
  marks.set(path, as)
}

const valueIn = (shape: Shape, answer: Answer | undefined, path: string, reading: Reading): unknown => {
  if (shape.is === 'fixed') return shape.value
  if (shape.is === 'unasked') return undefined
  if (shape.is === 'given') {
    const value = valueIn(shape.of, answer, path, reading)
    return value === undefined ? undefined : { is: 'given', [shape.key]: value }
  }
  // Of fields that nobody touched, each that is needed is marked by itself.
  if (shape.is === 'fields')
    return fieldsValue(shape.fields, answer?.is === 'fields' ? answer.of : {}, `${path}/`, reading)
  if (isBlank(answer) || answer === undefined) return mark(reading, path, 'open')
  switch (shape.is) {
    case 'quantity':
      return answer.is === 'quantity' ? quantityValue(shape, answer, path, reading) : undefined
    case 'text':
      return answer.is === 'text' ? textValue(shape.pattern, answer.text, path, reading) : undefined
    case 'words':
      return answer.is === 'text' ? wordsValue(shape.most, answer.text, path, reading) : undefined
    case 'spoken': {
      const text = answer.is === 'text' ? wordsValue(shape.most, answer.text, path, reading) : undefined
      return text && answer.is === 'text' ? { lang: answer.lang ?? reading.around.lang, text } : undefined
    }
    case 'time':
      return answer.is === 'time' ? timeValue(answer, path, reading) : undefined
    case 'code':
    case 'id':
      return answer.is === 'picked' ? answer.value : undefined
    case 'someone':
      return someoneValue(answer, path, reading)
    case 'rows':
      return answer.is === 'rows'
        ? answer.rows.map((row, i) => valueIn(shape.of, row, `${path}/${i}`, reading))
        : undefined
    case 'tagged': {
      const option = answer.is === 'tagged' && shape.options.find(({ tag }) => tag === answer.tag)
      if (!option || answer.is !== 'tagged') return mark(reading, path, 'open')
      return option.of ? valueIn(option.of, answer.of, path, reading) : { is: option.tag }
    }
  }
}

const textValue = (pattern: RegExp, text: string, path: string, reading: Reading): string | undefined => {
  const tidy = text.trim().replace(/\s+/g, ' ')
  return pattern.test(tidy) ? tidy : mark(reading, path, 'unreadable')
}

const wordsValue = (most: number, text: string, path: string, reading: Reading): string | undefined => {
  const tidy = tidyRemark(text)
  if (tidy === '') return mark(reading, path, 'open')
  return tidy.length <= most ? tidy : mark(reading, path, 'too-long')
}

const someoneValue = (answer: Answer, path: string, reading: Reading): object | undefined => {
  if (answer.is === 'picked') return { person: answer.value }
  const called = answer.is === 'called' ? wordsValue(60, answer.text, path, reading) : undefined
  return called === undefined ? undefined : { called }
}

/** A number below zero as it is typed; the rest is read as any quantity. */
export const readSigned = (text: string): string | undefined => {
  const tidy = withDecimalPoint(text.trim().replace(/^[−–]/, '-'))
  return SIGNED_TEXT.test(tidy) ? tidy : undefined
}

const quantityValue = (
  { signed, facts }: Extract<Shape, { is: 'quantity' }>,
  { text, unit }: Extract<Answer, { is: 'quantity' }>,
  path: string,
  reading: Reading,
): object | undefined => {
  const read = signed ? readSigned(text) : readQuantity(text)
  if (read === undefined) return mark(reading, path, 'unreadable')
  const quantity = { is: 'given', text: read, unit } as const
  if (facts?.plain && facts.unit && !isPlain(quantity, facts.unit, facts.plain)) reading.unusual.add(path)
  return quantity
}

/** Inside the range that a field plainly has, both in its unit; so too where that can't be worked out. */
export const isPlain = (
  quantity: Quantity,
  unit: Quantity['unit'],
  plain: readonly [string, string],
): boolean => {
  const value = inUnit(quantity, unit)
  const [least, most] = plain.map(readNumber)
  if (!value.ok || !least?.ok || !most?.ok) return true
  return compare(value.value, least.value) >= 0 && compare(value.value, most.value) <= 0
}

/** The time that an answer means, undefined where its digits or its half of the day are still open. */
export const timeOf = (
  { text, half, days, kept }: Extract<Answer, { is: 'time' }>,
  { now, zone, ahead }: Around,
): LocalTime | undefined => {
  const digits = text.trim()
  if (kept !== undefined && digits === kept.slice(11, 16) && days === 0) return kept
  const read = readClock(digits, half)
  if (read.is !== 'clock') return undefined
  if (kept !== undefined) return timeOnDay(read.clock, kept, days, zone)
  const near = ahead ? nextTimeAt(read.clock, now, zone) : lastTimeAt(read.clock, now, zone)
  return near === undefined || days === 0 ? near : timeOnDay(read.clock, near, days, zone)
}

const timeValue = (
  answer: Extract<Answer, { is: 'time' }>,
  path: string,
  reading: Reading,
): LocalTime | undefined =>
  timeOf(answer, reading.around) ?? mark(reading, path, clockMark(answer.text, answer.half))
