import { type JSX, Show } from 'solid-js'
import type { Stated } from '../state/draft.ts'
import { type Mark, markWords } from '../state/field-mark.ts'
import { usePhone } from '../state/phone.ts'
import { TextField } from './TextField.tsx'

/** A field of a ticket: filled in, or said to be not on the ticket. Empty is neither, and is asked for. */
export const StatedField = (props: {
  label: string
  stated: Stated
  onChange: (stated: Stated) => void
  mark: Mark | undefined
  example: string
  unit?: string
  keys?: 'numeric' | 'decimal'
  first?: boolean
  children?: JSX.Element
}) => {
  const { t } = usePhone()
  return (
    <div class="stated">
      <TextField
        label={props.label}
        value={props.stated.text}
        onInput={(text) => props.onChange({ text, notStated: false })}
        wrong={markWords(t, props.mark, props.example)}
        {...(props.unit ? { unit: props.unit } : {})}
        {...(props.keys ? { keys: props.keys } : {})}
        first={props.first ?? false}
      />
      <button
        type="button"
        class="toggle"
        aria-pressed={props.stated.notStated}
        aria-label={`${props.label}: ${t('notOnTicket')}`}
        onClick={() => props.onChange({ text: '', notStated: !props.stated.notStated })}
      >
        {t('notOnTicket')}
      </button>
      <Show when={!props.stated.notStated}>{props.children}</Show>
    </div>
  )
}
