import { For, Show } from 'solid-js'
import { usePhone } from '../../../state/phone.ts'
import type { Answer } from '../../../state/shape/answer.ts'
import type { Shape, TagShape } from '../../../state/shape/shape.ts'
import { Choice } from '../../Choice.tsx'
import { FieldList } from './FieldsField.tsx'
import { as, codeWord, type FieldProps, useMark } from './field.ts'
import { ShapeField } from './ShapeField.tsx'

/** What is simply filled in, with "none" or "not stated" as the other things that can be said. */
const simple = (shape: Extract<Shape, { is: 'tagged' }>): (TagShape & { of: Shape }) | undefined => {
  const whole = shape.options.filter((option) => option.of !== undefined)
  const [one] = whole
  return whole.length === 1 && one?.of && (one.of.is === 'quantity' || one.of.is === 'given')
    ? { tag: one.tag, of: one.of }
    : undefined
}

/** One of the different things that can be said. None of them stands there beforehand. */
export const TaggedField = (props: FieldProps<'tagged'>) => {
  const filled = simple(props.shape)
  return filled ? <FilledOrSaid {...props} filled={filled} /> : <OneOfSeveral {...props} />
}

const FilledOrSaid = (props: FieldProps<'tagged'> & { filled: TagShape & { of: Shape } }) => {
  const { t } = usePhone()
  const answer = () => as('tagged', props.answer)
  const others = () => props.shape.options.filter((option) => option.of === undefined)
  return (
    <div class="stated">
      <ShapeField
        {...props}
        optional={true}
        shape={props.filled.of}
        answer={answer()?.tag === props.filled.tag ? answer()?.of : undefined}
        onChange={(of) => props.onChange(of && { is: 'tagged', tag: props.filled.tag, of })}
      />
      <For each={others()}>
        {({ tag }) => (
          <button
            type="button"
            class="toggle"
            aria-label={`${props.label}: ${codeWord(t, tag)}`}
            aria-pressed={answer()?.tag === tag}
            onClick={() =>
              props.onChange(answer()?.tag === tag ? undefined : { is: 'tagged', tag, of: undefined })
            }
          >
            {codeWord(t, tag)}
          </button>
        )}
      </For>
    </div>
  )
}

const NOBODY_SAID = ''

const OneOfSeveral = (props: FieldProps<'tagged'>) => {
  const { t } = usePhone()
  const wrong = useMark(t, props, () => '')
  const answer = () => as('tagged', props.answer)
  const fill = (of: Answer | undefined) => props.onChange({ is: 'tagged', tag: answer()?.tag ?? '', of })
  const content = () => props.shape.options.find((option) => option.tag === answer()?.tag)?.of
  const options = () => [
    ...props.shape.options.map(({ tag }) => ({ value: tag, label: codeWord(t, tag) })),
    ...(props.optional ? [{ value: NOBODY_SAID, label: t('notRecorded') }] : []),
  ]
  return (
    <div class="nested">
      <Choice
        small
        legend={props.label}
        options={options()}
        value={answer()?.tag ?? (props.optional ? NOBODY_SAID : undefined)}
        onPick={(tag) =>
          props.onChange(tag === NOBODY_SAID ? undefined : { is: 'tagged', tag, of: undefined })
        }
      />
      <Show when={wrong()}>
        <p class="field-wrong">⚠ {wrong()}</p>
      </Show>
      <Show when={content()} keyed>
        {(shape) =>
          shape.is === 'fields' ? (
            <FieldList
              fields={shape.fields}
              under={`${props.path}/`}
              label={props.label}
              answers={as('fields', answer()?.of)?.of ?? {}}
              onChange={(name, one) =>
                fill({ is: 'fields', of: { ...as('fields', answer()?.of)?.of, [name]: one } })
              }
            />
          ) : (
            <ShapeField {...props} shape={shape} optional={false} answer={answer()?.of} onChange={fill} />
          )
        }
      </Show>
    </div>
  )
}
