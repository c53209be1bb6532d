import { createMemo, createSignal, Show } from 'solid-js'
import type { Entry } from '../../../../api/domain/entry/envelope.ts'
import type { BodyOf, Kind } from '../../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../../state/draft.ts'
import { useJob } from '../../../state/job-here.ts'
import { usePhone } from '../../../state/phone.ts'
import { type Answer, type Answers, answersOf, isBlank } from '../../../state/shape/answer.ts'
import { draftBody } from '../../../state/shape/draft-body.ts'
import { carriedAnswers, formFields, formOf, startAnswers } from '../../../state/shape/kind-form.ts'
import { type FieldShape, fieldsOfKind } from '../../../state/shape/shape.ts'
import { showValue } from '../../../state/show.ts'
import { Fold } from '../../Fold.tsx'
import { WhenField } from '../../WhenField.tsx'
import { FormFrame, type FormProps } from '../FormFrame.tsx'
import { FieldList } from './FieldsField.tsx'
import { FormContext } from './form-here.ts'

/** A form for any kind of entry, made from the kind's own shape. */
export const ShapeForm = <K extends Kind>(
  props: FormProps<K> & { kind: K; load?: string | undefined; given?: Partial<BodyOf<K>> | undefined },
) => {
  const { t, world, language, newId } = usePhone()
  const job = useJob()
  const { kind } = props
  const { first, more } = formFields(kind)
  const form = formOf(kind)
  const fresh = form.fresh ?? []
  const start = (): Answers => startAnswers(fieldsOfKind(kind), fresh, newId)
  const before = (props.initial?.body ?? props.given) as Readonly<Record<string, unknown>> | undefined
  const [answers, setAnswers] = createSignal<Answers>(
    before ? { ...start(), ...answersOf(fieldsOfKind(kind), before) } : start(),
  )
  const kept = props.initial?.occurredAt
  const [when, setWhen] = createSignal<When>(kept ? { is: 'kept' } : { is: 'now' })
  const [tried, setTried] = createSignal(false)
  const [saved, setSaved] = createSignal<string>()
  const around = () => ({
    now: world.now(),
    zone: job.zone(),
    lang: language(),
    ahead: form.ahead ?? false,
  })
  const read = createMemo(() => draftBody(kind, answers(), props.load, around()))
  const ready = (): Draft<K> | undefined => {
    const { body } = read()
    const occurredAt = form.timeless
      ? (kept ?? job.localNow())
      : readWhen(when(), world.now(), job.zone(), kept)
    if (!body || !occurredAt) return undefined
    const { source = 'tap', evidence } = props.initial ?? {}
    return { body, occurredAt, source, ...(evidence ? { evidence } : {}) }
  }
  const change = (name: string, answer: Answer | undefined) => {
    setSaved(undefined)
    setAnswers({ ...answers(), [name]: answer })
  }
  const another = (draft: Draft<K>) => {
    setSaved(showValue(t, draftEntry(kind, draft), job.names(t)))
    setAnswers({ ...start(), ...carriedAnswers(kind, answers()) })
    setWhen({ is: 'now' })
    setTried(false)
  }
  const moreAnswered = () => more.some(({ name }) => !isBlank(answers()[name]))
  const moreMarked = () => tried() && more.some(({ name }) => isUnder(name, [...read().marks.keys()]))
  const list = (fields: readonly FieldShape[]) => (
    <FieldList fields={fields} under="" answers={answers()} onChange={change} />
  )
  return (
    <FormContext.Provider
      value={{
        around,
        marks: () => (tried() ? read().marks : new Map()),
        unusual: () => read().unusual,
        fresh,
      }}
    >
      <FormFrame
        form={props}
        draft={ready}
        onOpen={() => setTried(true)}
        asks={read().unusual.size > 0 ? t('unusualAsk') : undefined}
        onAnother={form.once ? undefined : another}
      >
        <Show when={saved()}>
          {(value) => (
            <p class="sum" role="status">
              ✓ {t('savedThis', { value: value() })}
            </p>
          )}
        </Show>
        {list(first)}
        <Show when={!form.timeless}>
          <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
        </Show>
        <Show when={more.length > 0}>
          <Fold title={t('more')} says={t('moreHelp')} open={moreAnswered() || moreMarked()}>
            {list(more)}
          </Fold>
        </Show>
      </FormFrame>
    </FormContext.Provider>
  )
}

const isUnder = (name: string, paths: readonly string[]): boolean =>
  paths.some((path) => path === name || path.startsWith(`${name}/`))

/** As much of an entry as showing its value needs. */
const draftEntry = <K extends Kind>(kind: K, { body, occurredAt }: Draft<K>): Entry =>
  ({ kind, body, occurredAt }) as unknown as Entry
