import { For } from 'solid-js'

/** What a log leaves open, one line each. */
export const GapList = (props: { lines: readonly string[] }) => (
  <ul class="gaps">
    <For each={props.lines}>{(line) => <li>{line}</li>}</For>
  </ul>
)
