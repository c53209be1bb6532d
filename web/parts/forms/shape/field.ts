import type { Words } from '../../../state/language.ts'
import type { Answer } from '../../../state/shape/answer.ts'
import type { ShapeMark } from '../../../state/shape/read.ts'
import type { Shape } from '../../../state/shape/shape.ts'
import { useForm } from './form-here.ts'

/** What each field of a general form is given. */
export type FieldProps<S extends Shape['is'] = Shape['is']> = {
  readonly label: string
  readonly name: string
  readonly shape: Extract<Shape, { is: S }>
  readonly optional: boolean
  readonly path: string
  readonly answer: Answer | undefined
  readonly onChange: (answer: Answer | undefined) => void
}

/** The answer where it is of this form. */
export const as = <I extends Answer['is']>(is: I, answer: Answer | undefined) =>
  answer?.is === is ? (answer as Extract<Answer, { is: I }>) : undefined

/** A member's name in the words of the reader. */
export const fieldWord = (t: Words, name: string): string => {
  const words: Readonly<Record<string, string>> = t.entry().fields
  return Object.hasOwn(words, name) ? upperFirst(words[name]!) : name
}

export const codeWord = (t: Words, code: string): string => {
  const words: Readonly<Record<string, string>> = t.entry().codes
  return Object.hasOwn(words, code) ? words[code]! : code
}

const upperFirst = (text: string): string => text.slice(0, 1).toLocaleUpperCase() + text.slice(1)

/** What is wrong with this field, in words that say how to put it right. */
export const useMark = (
  t: Words,
  props: { readonly path: string },
  example: () => string,
  over = () => 0,
) => {
  const form = useForm()
  return (): string | undefined => {
    const mark: ShapeMark | undefined = form.marks().get(props.path)
    if (mark === undefined) return undefined
    if (mark === 'too-long') return t('tooLong', { over: over() })
    return mark === 'open' ? t('stillOpen') : t('cantRead', { example: example() })
  }
}
