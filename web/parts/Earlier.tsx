import { type Accessor, createSignal, Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'

export type Latest<T> = {
  readonly shown: Accessor<readonly T[]>
  /** How many are not shown; none once all were asked for. */
  readonly hidden: Accessor<number>
  showAll(): void
}

/** The last so many of a list that grows, and all of it when asked: a day's log is longer than a thumb is patient. */
export const createLatest = <T,>(all: Accessor<readonly T[]>, most: number): Latest<T> => {
  const [open, setOpen] = createSignal(false)
  const hidden = () => (open() ? 0 : Math.max(0, all().length - most))
  return { shown: () => all().slice(hidden()), hidden, showAll: () => setOpen(true) }
}

/** Stands above the list: what came before lies upwards. */
export const Earlier = (props: { of: Latest<unknown> }) => {
  const { t } = usePhone()
  return (
    <Show when={props.of.hidden() > 0}>
      <button type="button" class="earlier" onClick={() => props.of.showAll()}>
        {t('showEarlier', { n: props.of.hidden() })}
      </button>
    </Show>
  )
}
