import type { LocalTime } from '../../../api/domain/time.ts'
import type { Unit } from '../../../api/domain/units.ts'
import type { Half } from '../clock-text.ts'
import { clockDigits, halfOf } from '../draft.ts'
import type { FieldShape, Shape } from './shape.ts'

/** What stands in a form for one value, as it was typed or touched; undefined where nobody answered. */
export type Answer =
  | { readonly is: 'text'; readonly text: string; readonly lang?: string }
  | { readonly is: 'quantity'; readonly text: string; readonly unit: Unit }
  | {
      readonly is: 'time'
      readonly text: string
      readonly half: Half | undefined
      /** Days later (or earlier, below zero) than the day that the clock time would mean by itself. */
      readonly days: number
      /** The time that was logged, for a correction: it stands to the second while its digits are left alone. */
      readonly kept?: LocalTime
    }
  | { readonly is: 'picked'; readonly value: string }
  | { readonly is: 'called'; readonly text: string }
  | { readonly is: 'rows'; readonly rows: readonly (Answer | undefined)[] }
  | { readonly is: 'fields'; readonly of: Answers }
  | { readonly is: 'tagged'; readonly tag: string; readonly of: Answer | undefined }

export type Answers = { readonly [name: string]: Answer | undefined }

type Plain = Readonly<Record<string, unknown>>

/** A value as logged, back in its form: read again untouched, it is the same value. */
export const answerOf = (shape: Shape, value: unknown): Answer | undefined => {
  if (value === undefined) return undefined
  const plain = value as Plain
  switch (shape.is) {
    case 'fixed':
    case 'unasked':
      return undefined
    case 'quantity':
      return { is: 'quantity', text: String(plain.text), unit: plain.unit as Unit }
    case 'text':
    case 'words':
      return { is: 'text', text: String(value) }
    case 'spoken':
      return { is: 'text', text: String(plain.text), lang: String(plain.lang) }
    case 'time': {
      const kept = value as LocalTime
      return { is: 'time', text: clockDigits(kept), half: halfOf(kept), days: 0, kept }
    }
    case 'code':
    case 'id':
      return { is: 'picked', value: String(value) }
    case 'someone':
      return 'person' in plain
        ? { is: 'picked', value: String(plain.person) }
        : { is: 'called', text: String(plain.called) }
    case 'given':
      return answerOf(shape.of, plain[shape.key])
    case 'rows':
      return { is: 'rows', rows: (value as readonly unknown[]).map((one) => answerOf(shape.of, one)) }
    case 'fields':
      return { is: 'fields', of: answersOf(shape.fields, plain) }
    case 'tagged': {
      const tag = String(plain.is)
      const option = shape.options.find((one) => one.tag === tag)
      return { is: 'tagged', tag, of: option?.of && answerOf(option.of, value) }
    }
  }
}

export const answersOf = (fields: readonly FieldShape[], body: Plain): Answers =>
  Object.fromEntries(fields.map(({ name, shape }) => [name, answerOf(shape, body[name])]))

/** Whether nothing was said: an empty text, no row, fields that are all blank. */
export const isBlank = (answer: Answer | undefined): boolean => {
  if (answer === undefined) return true
  switch (answer.is) {
    case 'picked':
      return false
    case 'tagged':
      // A number typed and taken out again is no answer; "given" touched, with nothing under it yet, is half of one.
      return answer.of !== undefined && answer.of.is !== 'fields' && isBlank(answer.of)
    case 'rows':
      return answer.rows.length === 0
    case 'fields':
      return Object.values(answer.of).every(isBlank)
    default:
      return answer.text.trim() === ''
  }
}
