import { For } from 'solid-js'
import type { Unit } from '../../../../api/domain/units.ts'
import { usePhone } from '../../../state/phone.ts'
import type { Answer, Answers } from '../../../state/shape/answer.ts'
import type { FieldShape } from '../../../state/shape/shape.ts'
import { showUnit } from '../../../state/show.ts'
import { as, type FieldProps, fieldWord } from './field.ts'
import { useForm } from './form-here.ts'
import { ShapeField } from './ShapeField.tsx'

/** The members of a body, or of a part of one, one under the other. */
export const FieldList = (props: {
  fields: readonly FieldShape[]
  under: string
  /** What the whole is called, for a member that is nothing but its text. */
  label?: string
  answers: Answers
  onChange: (name: string, answer: Answer | undefined) => void
}) => {
  const { t } = usePhone()
  const form = useForm()
  const asked = () =>
    props.fields.filter(
      ({ name, shape }) => shape.is !== 'fixed' && shape.is !== 'unasked' && !form.fresh.includes(name),
    )
  /** `{ text: '90', unit: 'min', to: … }`: the unit is fixed and belongs to the text. */
  const unit = () => {
    const shape = props.fields.find(({ name }) => name === 'unit')?.shape
    return shape?.is === 'fixed' ? ` (${showUnit(t, shape.value as Unit)})` : ''
  }
  const labelOf = (name: string) =>
    name === 'text' ? `${props.label ?? fieldWord(t, name)}${unit()}` : fieldWord(t, name)
  return (
    <For each={asked()}>
      {(field) => (
        <ShapeField
          name={field.name}
          label={labelOf(field.name)}
          shape={field.shape}
          optional={field.optional}
          path={props.under + field.name}
          answer={props.answers[field.name]}
          onChange={(answer) => props.onChange(field.name, answer)}
        />
      )}
    </For>
  )
}

/** Members that belong together, under the name of the whole. */
export const FieldsField = (props: FieldProps<'fields'>) => {
  const of = () => as('fields', props.answer)?.of ?? {}
  return (
    <fieldset class="nested">
      <legend>{props.label}</legend>
      <FieldList
        fields={props.shape.fields}
        under={`${props.path}/`}
        label={props.label}
        answers={of()}
        onChange={(name, answer) => props.onChange({ is: 'fields', of: { ...of(), [name]: answer } })}
      />
    </fieldset>
  )
}
