import { createMemo, createSignal } from 'solid-js'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { type Answer, type Answers, answersOf } from '../../state/shape/answer.ts'
import { type Around, type BodyRead, readFields } from '../../state/shape/read.ts'
import { fieldsOfKind } from '../../state/shape/shape.ts'
import { FieldList } from './shape/FieldsField.tsx'
import { FormContext } from './shape/form-here.ts'

/** Where a photo was taken: of which load, of which part, in words; none of it is needed. */
export type PhotoPlace = {
  readonly answers: () => Answers
  readonly read: () => BodyRead
  readonly around: () => Around
  change(name: string, answer: Answer | undefined): void
}

const PLACE = ['load', 'part', 'where']

export const createPhotoPlace = (before: Readonly<Record<string, unknown>>): PhotoPlace => {
  const { world, language } = usePhone()
  const job = useJob()
  const fields = placeFields()
  const [answers, setAnswers] = createSignal<Answers>(answersOf(fields, before))
  const around = () => ({ now: world.now(), zone: job.zone(), lang: language(), ahead: false })
  return {
    answers,
    read: createMemo(() => readFields(fields, answers(), around())),
    around,
    change: (name, answer) => setAnswers({ ...answers(), [name]: answer }),
  }
}

const placeFields = () => fieldsOfKind('photo.taken').filter(({ name }) => PLACE.includes(name))

export const PhotoPlaceFields = (props: { place: PhotoPlace; tried: boolean }) => {
  const job = useJob()
  const marks = () => {
    const now = props.place.read()
    return props.tried && now.is === 'open' ? now.marks : new Map()
  }
  const fields = () =>
    placeFields().filter(
      ({ name }) =>
        (name !== 'load' || job.view().loads.length > 0) && (name !== 'part' || job.parts().length > 0),
    )
  return (
    <FormContext.Provider value={{ around: props.place.around, marks, unusual: () => NONE, fresh: [] }}>
      <FieldList fields={fields()} under="" answers={props.place.answers()} onChange={props.place.change} />
    </FormContext.Provider>
  )
}

const NONE: ReadonlySet<string> = new Set()
