import { Index, Show } from 'solid-js'
import { usePhone } from '../../../state/phone.ts'
import type { Answer } from '../../../state/shape/answer.ts'
import { startRow } from '../../../state/shape/kind-form.ts'
import { as, type FieldProps, useMark } from './field.ts'
import { useForm } from './form-here.ts'
import { ShapeField } from './ShapeField.tsx'

/** Several of the same: breaks, parts of the slab, places where a load went. */
export const RowsField = (props: FieldProps<'rows'>) => {
  const { t, newId } = usePhone()
  const form = useForm()
  const wrong = useMark(t, props, () => '')
  const rows = () => as('rows', props.answer)?.rows ?? []
  const put = (after: readonly (Answer | undefined)[]) => props.onChange({ is: 'rows', rows: after })
  return (
    <fieldset class="nested">
      <legend>{props.label}</legend>
      <Index each={rows()}>
        {(row, i) => (
          <div class="row">
            <ShapeField
              name={props.name}
              label={`${i + 1}`}
              shape={props.shape.of}
              optional={false}
              path={`${props.path}/${i}`}
              answer={row()}
              onChange={(answer) => put(rows().map((before, at) => (at === i ? answer : before)))}
            />
            <Show when={rows().length > props.shape.least}>
              <button
                type="button"
                class="second"
                aria-label={t('removeRow', { field: props.label, number: i + 1 })}
                onClick={() => put(rows().filter((_, at) => at !== i))}
              >
                {t('remove')}
              </button>
            </Show>
          </div>
        )}
      </Index>
      <Show when={wrong()}>
        <p class="field-wrong">⚠ {wrong()}</p>
      </Show>
      <Show when={rows().length < props.shape.most}>
        <button
          type="button"
          class="second wide"
          onClick={() => put([...rows(), startRow(props.shape.of, form.fresh, newId)])}
        >
          {t('addRow')}
        </button>
      </Show>
    </fieldset>
  )
}
