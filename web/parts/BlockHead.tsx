import { type JSX, Show } from 'solid-js'

/** The head of a block: below a load's own head, or straight below the whole job's. */
export const BlockHead = (props: { ofLoad: boolean; children: JSX.Element }) => (
  <Show when={props.ofLoad} fallback={<h3 class="block-head">{props.children}</h3>}>
    <h4>{props.children}</h4>
  </Show>
)
