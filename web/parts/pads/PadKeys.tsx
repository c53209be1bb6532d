import { For } from 'solid-js'

export type Key = { readonly value: string; readonly label: string }

/** Keys for a knuckle, of which one is picked. Nothing is lit until it is touched. */
export const PadKeys = (props: {
  legend: string
  keys: readonly Key[]
  picked: string | undefined
  onPick: (value: string) => void
  /** Keys in a row. */
  wide: number
}) => (
  <fieldset class="pad" style={{ '--wide': props.wide }}>
    <legend>{props.legend}</legend>
    <For each={props.keys}>
      {({ value, label }) => (
        <button type="button" aria-pressed={props.picked === value} onClick={() => props.onPick(value)}>
          {label}
        </button>
      )}
    </For>
  </fieldset>
)

/** `0` to `9`, or whatever lies between, by equal steps. */
export const keysFrom = (from: number, to: number, step = 1): readonly Key[] =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => {
    const value = String(from + i * step)
    return { value, label: value }
  })
