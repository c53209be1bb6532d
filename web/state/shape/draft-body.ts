import type { BodyOf, Kind } from '../../../api/domain/entry/registry.ts'
import type { Answers } from './answer.ts'
import { type Around, type Marks, readFields, wholeBody } from './read.ts'
import { type FieldShape, fieldsOfKind } from './shape.ts'

export type DraftBody<K extends Kind> = {
  /** Undefined while something is open. */
  readonly body: BodyOf<K> | undefined
  readonly marks: Marks
  readonly unusual: ReadonlySet<string>
}

/** The body that a general form's answers come to, for this load where the kind belongs to one. */
export const draftBody = <K extends Kind>(
  kind: K,
  answers: Answers,
  load: string | undefined,
  around: Around,
): DraftBody<K> => {
  const fields = fieldsOfKind(kind)
  const ofLoad = fields.find(({ name }) => name === 'load')
  const read = readFields(fields.filter(isAsked), answers, around)
  if (read.is === 'open') return { body: undefined, marks: read.marks, unusual: read.unusual }
  const whole = wholeBody(kind, ofLoad && load !== undefined ? { load, ...read.body } : read.body)
  return 'body' in whole
    ? { body: whole.body, marks: NO_MARKS, unusual: read.unusual }
    : { body: undefined, marks: whole.marks, unusual: read.unusual }
}

const isAsked = ({ name }: FieldShape): boolean => name !== 'load'
const NO_MARKS: Marks = new Map()
