import { Show } from 'solid-js'
import { usePhone } from '../../../state/phone.ts'
import { showUnit } from '../../../state/show.ts'
import { ReadAs } from '../../ReadAs.tsx'
import { TextField } from '../../TextField.tsx'
import { as, type FieldProps, useMark } from './field.ts'
import { useForm } from './form-here.ts'

/** A number with its unit. Where it is asked in several units, a touch on the unit goes on to the next one. */
export const QuantityField = (props: FieldProps<'quantity'>) => {
  const { t } = usePhone()
  const form = useForm()
  const answer = () => as('quantity', props.answer)
  const text = () => answer()?.text ?? ''
  const unit = () => answer()?.unit ?? props.shape.units[0]!
  const shown = () => showUnit(t, unit())
  const wrong = useMark(t, props, () => (props.shape.signed ? '-4' : '8.5'))
  const next = () => {
    const { units } = props.shape
    const to = units[(units.indexOf(unit()) + 1) % units.length]!
    props.onChange({ is: 'quantity', text: text(), unit: to })
  }
  const plain = () => {
    const facts = props.shape.facts
    if (!facts?.plain || !facts.unit || !form.unusual().has(props.path)) return undefined
    const [from, to] = facts.plain
    return t('unusual', { from, to, unit: showUnit(t, facts.unit) })
  }
  return (
    <div class="quantity">
      <TextField
        label={props.label}
        keys={props.shape.signed ? 'text' : 'decimal'}
        most={15}
        value={text()}
        wrong={wrong()}
        onInput={(typed) => props.onChange({ is: 'quantity', text: typed, unit: unit() })}
        {...(props.shape.units.length === 1 && shown() !== '' ? { unit: shown() } : {})}
      />
      <Show when={props.shape.units.length > 1}>
        <button
          type="button"
          class="second unit"
          aria-label={t('unitOf', { field: props.label, unit: shown() })}
          onClick={next}
        >
          {shown()} <span aria-hidden="true">⇄</span>
        </button>
      </Show>
      <ReadAs text={text()} unit={shown()} />
      <Show when={plain()}>{(says) => <p class="unusual">⚠ {says()}</p>}</Show>
    </div>
  )
}
