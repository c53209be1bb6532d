import { createContext, useContext } from 'solid-js'
import type { Around, Marks } from '../../../state/shape/read.ts'

/** What the fields of one form share. */
export type FormHere = {
  readonly around: () => Around
  /** What is wrong with the form as it stands, by the way to the field; empty until it was tried to save. */
  readonly marks: () => Marks
  readonly unusual: () => ReadonlySet<string>
  readonly fresh: readonly string[]
}

export const FormContext = createContext<FormHere>()

export const useForm = (): FormHere => {
  const form = useContext(FormContext)
  if (!form) throw new Error('no form around this field')
  return form
}
