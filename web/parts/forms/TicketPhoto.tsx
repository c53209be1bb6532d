import { createSignal, For, Show } from 'solid-js'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { PhotoImage } from '../Photo.tsx'

/** The photographed ticket beside what is typed from it: it stays in view, and a touch shows it larger. */
export const TicketPhoto = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const [large, setLarge] = createSignal(false)
  const photos = () =>
    (job.load(props.load)?.photos ?? []).filter((photo) => photo.value.shows === 'ticket').slice(-2)
  return (
    <Show when={photos().length > 0}>
      <section class="ticket-photo" classList={{ large: large() }} aria-label={t('lookAtTicket')}>
        <For each={photos().map((photo) => photo.hash)}>
          {(hash) => (
            <Show when={photos().find((photo) => photo.hash === hash)}>
              {(photo) => (
                <button
                  type="button"
                  class="photo-open"
                  aria-pressed={large()}
                  aria-label={t('lookAtTicket')}
                  onClick={() => setLarge(!large())}
                >
                  <PhotoImage photo={photo().value} size="large" />
                </button>
              )}
            </Show>
          )}
        </For>
      </section>
    </Show>
  )
}
