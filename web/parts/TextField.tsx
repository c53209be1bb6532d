import { Show } from 'solid-js'

/** A field with its label above and its unit behind. */
export const TextField = (props: {
  label: string
  value: string
  onInput: (text: string) => void
  unit?: string
  keys?: 'numeric' | 'decimal' | 'text'
  most?: number
  disabled?: boolean
  wrong?: string | undefined
}) => (
  <label class="field">
    <span class="field-label">{props.label}</span>
    <span class="field-box">
      <input
        type="text"
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        inputMode={props.keys ?? 'text'}
        maxLength={props.most ?? 60}
        value={props.value}
        disabled={props.disabled ?? false}
        onInput={(event) => props.onInput(event.currentTarget.value)}
      />
      <Show when={props.unit}>
        <span class="field-unit">{props.unit}</span>
      </Show>
    </span>
    <Show when={props.wrong}>
      <span class="field-wrong">⚠ {props.wrong}</span>
    </Show>
  </label>
)
