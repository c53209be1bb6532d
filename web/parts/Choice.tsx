import { For } from 'solid-js'

export type Option<V extends string> = { readonly value: V; readonly label: string }

let groups = 0

/** One of several, as tags to touch. What is chosen has a tick and a thick edge, not a colour alone. */
export const Choice = <V extends string>(props: {
  legend: string
  options: readonly Option<V>[]
  value: V | undefined
  onPick: (value: V) => void
  small?: boolean
}) => {
  const name = `choice-${groups++}`
  return (
    <fieldset class="choice" classList={{ narrow: props.small ?? false }}>
      <legend>{props.legend}</legend>
      <For each={props.options.map((o) => o.value)}>
        {(value) => (
          <label class="tag-option">
            <input
              type="radio"
              name={name}
              value={value}
              checked={props.value === value}
              onChange={() => props.onPick(value)}
            />
            <span>{props.options.find((o) => o.value === value)?.label}</span>
          </label>
        )}
      </For>
    </fieldset>
  )
}
