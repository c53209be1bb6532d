import { Show } from 'solid-js'
import { useKeyPad } from './pads/key-pad.ts'

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
  /** Has the focus as soon as it stands. */
  first?: boolean
}) => {
  const openPad = useKeyPad()
  return (
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
          autofocus={props.first ?? false}
          onFocus={({ currentTarget }) => {
            // Whoever asked for letters has the phone's keyboard until the field is left.
            if ('letters' in currentTarget.dataset) delete currentTarget.dataset.letters
            else openPad(currentTarget, props.keys)
          }}
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
}
