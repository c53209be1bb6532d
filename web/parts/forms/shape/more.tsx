import { createMemo, createSignal, Show } from 'solid-js'
import type { Kind } from '../../../../api/domain/entry/registry.ts'
import { useJob } from '../../../state/job-here.ts'
import { usePhone } from '../../../state/phone.ts'
import { type Answer, type Answers, answersOf, isBlank } from '../../../state/shape/answer.ts'
import { carriedAnswers, formFields } from '../../../state/shape/kind-form.ts'
import { type Around, type BodyRead, readFields } from '../../../state/shape/read.ts'
import type { FieldShape } from '../../../state/shape/shape.ts'
import { Fold } from '../../Fold.tsx'
import { FieldList } from './FieldsField.tsx'
import { FormContext } from './form-here.ts'

/** The members that a form made by hand leaves to the general fields. */
export type More = {
  readonly answers: () => Answers
  readonly fields: { readonly first: readonly FieldShape[]; readonly more: readonly FieldShape[] }
  readonly read: () => BodyRead
  /** Members of the body as answered; undefined while one of them is open. */
  readonly members: () => Readonly<Record<string, unknown>> | undefined
  readonly around: () => Around
  change(name: string, answer: Answer | undefined): void
  /** For the next one of the same kind. */
  again(): void
}

export const createMore = (
  kind: Kind,
  byHand: readonly string[],
  before: Readonly<Record<string, unknown>> | undefined,
): More => {
  const { world, language } = usePhone()
  const job = useJob()
  const left = (fields: readonly FieldShape[]) => fields.filter(({ name }) => !byHand.includes(name))
  const all = formFields(kind)
  const fields = { first: left(all.first), more: left(all.more) }
  const both = [...fields.first, ...fields.more]
  const [answers, setAnswers] = createSignal<Answers>(before ? answersOf(both, before) : {})
  const around = () => ({ now: world.now(), zone: job.zone(), lang: language(), ahead: false })
  const read = createMemo(() => readFields(both, answers(), around()))
  return {
    answers,
    fields,
    read,
    members: () => {
      const now = read()
      return now.is === 'body' ? now.body : undefined
    },
    around,
    change: (name, answer) => setAnswers({ ...answers(), [name]: answer }),
    again: () => setAnswers(carriedAnswers(kind, answers())),
  }
}

/** The members asked outright, then the rest under "more". `hides` leaves out what doesn't apply as things stand. */
export const MoreFields = (props: { more: More; tried: boolean; hides?: (name: string) => boolean }) => {
  const { t } = usePhone()
  const marks = () => {
    const now = props.more.read()
    return props.tried && now.is === 'open' ? now.marks : new Map()
  }
  const inMore = (names: readonly string[]) =>
    props.more.fields.more.some(({ name }) => names.some((path) => path.split('/')[0] === name))
  const answered = () => props.more.fields.more.some(({ name }) => !isBlank(props.more.answers()[name]))
  const shown = (fields: readonly FieldShape[]) => fields.filter(({ name }) => !props.hides?.(name))
  return (
    <FormContext.Provider
      value={{ around: props.more.around, marks, unusual: () => props.more.read().unusual, fresh: [] }}
    >
      <FieldList
        fields={shown(props.more.fields.first)}
        under=""
        answers={props.more.answers()}
        onChange={props.more.change}
      />
      <Show when={props.more.fields.more.length > 0}>
        <Fold title={t('more')} says={t('moreHelp')} open={answered() || inMore([...marks().keys()])}>
          <FieldList
            fields={props.more.fields.more}
            under=""
            answers={props.more.answers()}
            onChange={props.more.change}
          />
        </Fold>
      </Show>
    </FormContext.Provider>
  )
}
