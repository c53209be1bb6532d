import { createSignal, type JSX, Show } from 'solid-js'

/**
 * A heading that opens what lies under it. Closed, it says in a few words what is in there, so that nobody has to open
 * it to see whether something is missing.
 */
export const Fold = (props: {
  title: string
  says?: string | undefined
  open?: boolean | undefined
  children: JSX.Element
}) => {
  const [touched, setTouched] = createSignal<boolean>()
  const open = () => touched() ?? props.open ?? false
  return (
    <section class="fold">
      <button type="button" class="fold-head" aria-expanded={open()} onClick={() => setTouched(!open())}>
        <span class="fold-title">{props.title}</span>
        <Show when={!open() && props.says}>
          <span class="fold-says">{props.says}</span>
        </Show>
        <span class="fold-mark" aria-hidden="true">
          {open() ? '▴' : '▾'}
        </span>
      </button>
      <Show when={open()}>
        <div class="fold-body">{props.children}</div>
      </Show>
    </section>
  )
}
