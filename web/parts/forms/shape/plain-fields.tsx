import { Show } from 'solid-js'
import { usePhone } from '../../../state/phone.ts'
import { tidyRemark } from '../../../state/remark-text.ts'
import { timeOf } from '../../../state/shape/read.ts'
import { Choice } from '../../Choice.tsx'
import { HalfChoice } from '../../HalfChoice.tsx'
import { TextField } from '../../TextField.tsx'
import { as, codeWord, type FieldProps, useMark } from './field.ts'
import { useForm } from './form-here.ts'

const EXAMPLES: Readonly<Record<string, string>> = { days: '28', order: '3306', loadOfDay: '2' }
/** Longer words get a field of several lines. */
const ONE_LINE = 120

/** Digits or letters of one form: an age in days, a number of cylinders. */
export const CodeTextField = (props: FieldProps<'text'>) => {
  const { t } = usePhone()
  const wrong = useMark(t, props, () => EXAMPLES[props.name] ?? '4')
  return (
    <TextField
      label={props.label}
      keys="numeric"
      value={as('text', props.answer)?.text ?? ''}
      wrong={wrong()}
      onInput={(text) => props.onChange({ is: 'text', text })}
    />
  )
}

/** Words in one's own language. What is too long is said and never cut. */
export const WordsField = (props: FieldProps<'words' | 'spoken'>) => {
  const { t } = usePhone()
  const answer = () => as('text', props.answer)
  const text = () => answer()?.text ?? ''
  const change = (typed: string) => {
    const lang = answer()?.lang
    props.onChange({ is: 'text', text: typed, ...(lang ? { lang } : {}) })
  }
  const wrong = useMark(
    t,
    props,
    () => '',
    () => tidyRemark(text()).length - props.shape.most,
  )
  return (
    <Show
      when={props.shape.most > ONE_LINE}
      fallback={
        <TextField label={props.label} most={10_000} value={text()} wrong={wrong()} onInput={change} />
      }
    >
      <label class="field">
        <span class="field-label">{props.label}</span>
        <textarea rows={3} value={text()} onInput={(event) => change(event.currentTarget.value)} />
        <Show when={wrong()}>
          <span class="field-wrong">⚠ {wrong()}</span>
        </Show>
      </label>
    </Show>
  )
}

/** A clock time and its day: the nearest that it would mean by itself, or another. */
export const TimeField = (props: FieldProps<'time'>) => {
  const { t } = usePhone()
  const form = useForm()
  const answer = () => as('time', props.answer) ?? { is: 'time' as const, text: '', half: undefined, days: 0 }
  const wrong = useMark(t, props, () => '0705')
  return (
    <div class="time-field">
      <TextField
        label={t('fieldLikeClock', { field: props.label })}
        keys="numeric"
        most={5}
        value={answer().text}
        wrong={wrong()}
        onInput={(text) => props.onChange({ ...answer(), text })}
      />
      <HalfChoice
        text={answer().text}
        half={answer().half}
        time={timeOf(answer(), form.around())}
        onPick={(half) => props.onChange({ ...answer(), half })}
        onDay={(days) => props.onChange({ ...answer(), days: answer().days + days })}
      />
    </div>
  )
}

const NOBODY_SAID = ''

/** One of several codes. What need not be answered says that it isn't, and can be put back to that. */
export const CodeField = (props: FieldProps<'code'>) => {
  const { t } = usePhone()
  const wrong = useMark(t, props, () => '')
  const options = () => [
    ...props.shape.codes.map((value) => ({ value, label: codeWord(t, value) })),
    ...(props.optional ? [{ value: NOBODY_SAID, label: t('notRecorded') }] : []),
  ]
  return (
    <>
      <Choice
        small
        legend={props.label}
        options={options()}
        value={as('picked', props.answer)?.value ?? (props.optional ? NOBODY_SAID : undefined)}
        onPick={(value) => props.onChange(value === NOBODY_SAID ? undefined : { is: 'picked', value })}
      />
      <Show when={wrong()}>
        <p class="field-wrong">⚠ {wrong()}</p>
      </Show>
    </>
  )
}
