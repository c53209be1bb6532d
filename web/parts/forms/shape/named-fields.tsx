import { For, Show } from 'solid-js'
import type { JobHere } from '../../../state/job-here.ts'
import { useJob } from '../../../state/job-here.ts'
import type { Words } from '../../../state/language.ts'
import { usePhone } from '../../../state/phone.ts'
import { TextField } from '../../TextField.tsx'
import { as, type FieldProps, useMark } from './field.ts'

type Named = { readonly id: string; readonly name: string }

/** What a member named `part`, `loads`, … can name in this job. */
const namedBy = (t: Words, job: JobHere, name: string): readonly Named[] =>
  name === 'load' || name === 'loads'
    ? job.view().loads.map(({ id, ordinal }) => ({ id, name: t('loadNumber', { number: ordinal }) }))
    : job.parts()

/** Touch a name; touch it again and it is not said. */
const Names = (props: {
  label: string
  /** Where there is nothing to name, what need not be answered is not asked. */
  optional: boolean
  names: readonly Named[]
  picked: readonly string[]
  onTouch: (id: string) => void
  wrong: string | undefined
}) => {
  const { t } = usePhone()
  return (
    <Show when={!props.optional || props.names.length > 0}>
      <fieldset class="choice">
        <legend>{props.label}</legend>
        <Show when={props.names.length > 0} fallback={<p>{t('noPartsPlanned')}</p>}>
          <For each={props.names}>
            {(one) => (
              <button
                type="button"
                class="toggle"
                aria-pressed={props.picked.includes(one.id)}
                onClick={() => props.onTouch(one.id)}
              >
                {one.name}
              </button>
            )}
          </For>
        </Show>
        <Show when={props.wrong}>
          <p class="field-wrong">⚠ {props.wrong}</p>
        </Show>
      </fieldset>
    </Show>
  )
}

/** One part of the slab, or one load, by its name. */
export const NamedField = (props: FieldProps<'id'>) => {
  const { t } = usePhone()
  const job = useJob()
  const wrong = useMark(t, props, () => '')
  const picked = () => as('picked', props.answer)?.value
  return (
    <Names
      label={props.label}
      optional={props.optional}
      names={namedBy(t, job, props.name)}
      picked={[picked() ?? '']}
      wrong={wrong()}
      onTouch={(id) => props.onChange(picked() === id ? undefined : { is: 'picked', value: id })}
    />
  )
}

/** Several parts, or loads, by their names. */
export const SeveralNamedField = (props: FieldProps<'rows'>) => {
  const { t } = usePhone()
  const job = useJob()
  const wrong = useMark(t, props, () => '')
  const picked = () =>
    (as('rows', props.answer)?.rows ?? []).flatMap((row) => (row?.is === 'picked' ? [row.value] : []))
  const touch = (id: string) => {
    const before = picked()
    const after = before.includes(id) ? before.filter((one) => one !== id) : [...before, id]
    const rows = after.map((value) => ({ is: 'picked', value }) as const)
    props.onChange(rows.length > 0 ? { is: 'rows', rows } : undefined)
  }
  return (
    <Names
      label={props.label}
      optional={props.optional}
      names={namedBy(t, job, props.name)}
      picked={picked()}
      wrong={wrong()}
      onTouch={touch}
    />
  )
}

/** A person of the company, or anybody else by what they are called. */
export const SomeoneField = (props: FieldProps<'someone'>) => {
  const { t, jobs } = usePhone()
  const wrong = useMark(
    t,
    props,
    () => '',
    () => (as('called', props.answer)?.text.length ?? 0) - 60,
  )
  const people = () => [...jobs.members().people.values()]
  const person = () => as('picked', props.answer)?.value
  const called = () => as('called', props.answer)
  return (
    <fieldset class="choice">
      <legend>{props.label}</legend>
      <For each={people().map((one) => one.person)}>
        {(id) => (
          <button
            type="button"
            class="toggle"
            aria-pressed={person() === id}
            onClick={() => props.onChange(person() === id ? undefined : { is: 'picked', value: id })}
          >
            <span translate="no">{jobs.nameOf(id)}</span>
          </button>
        )}
      </For>
      <button
        type="button"
        class="toggle"
        aria-pressed={called() !== undefined}
        onClick={() => props.onChange(called() ? undefined : { is: 'called', text: '' })}
      >
        {t('somebodyElse')}
      </button>
      <Show when={called()}>
        {(one) => (
          <TextField
            label={t('calledWhat', { field: props.label })}
            most={200}
            value={one().text}
            onInput={(text) => props.onChange({ is: 'called', text })}
          />
        )}
      </Show>
      <Show when={wrong()}>
        <p class="field-wrong">⚠ {wrong()}</p>
      </Show>
    </fieldset>
  )
}
