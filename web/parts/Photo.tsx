import { createSignal, onCleanup, Show } from 'solid-js'
import type { Photo as PhotoFact } from '../../api/domain/job/view.ts'
import { useJob } from '../state/job-here.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'
import { showShows } from '../state/show.ts'
import { readPhoto } from '../sync/photos.ts'
import { Answer } from './Answer.tsx'

/** A photo, from this phone's own bytes where it has them, else from the server. */
export const Photo = (props: { hash: string; photo: PhotoFact }) => {
  const { t, own, world } = usePhone()
  const job = useJob()
  const [broken, setBroken] = createSignal(false)
  const urls: string[] = []
  const kept = () => own.photo(props.photo.photo) !== undefined
  const mine = createLater(
    () => (kept() ? props.photo.photo : undefined),
    async (hash) => {
      // Looking at photos must not stand in the way of writing entries.
      const bytes = await readPhoto({ ...world, store: { transact: world.store.read } }, hash)
      const made = URL.createObjectURL(
        new Blob([bytes as Uint8Array<ArrayBuffer>], { type: props.photo.type }),
      )
      urls.push(made)
      return made
    },
  )
  const url = () => (kept() ? mine.value() : `/api/photos/${props.photo.photo}`)
  onCleanup(() => {
    for (const made of urls) URL.revokeObjectURL(made)
  })
  const bytesAre = () => {
    const known = own.photo(props.photo.photo)
    if (props.photo.received || known?.sent) return t('photoOnServer')
    return known ? t('photoOnPhone') : t('photoNotArrived')
  }
  return (
    <figure class="photo">
      <Show when={!broken() && url()} fallback={<span class="photo-none">{t('photoNoPreview')}</span>}>
        <button
          type="button"
          class="photo-open"
          onClick={() => job.setOver({ is: 'entry', hash: props.hash })}
        >
          <img
            src={url()}
            alt={showShows(t, props.photo.shows)}
            loading="lazy"
            onError={() => setBroken(true)}
          />
        </button>
      </Show>
      <figcaption>
        <Answer hash={props.hash} value={showShows(t, props.photo.shows)} />
        <span class="small">{bytesAre()}</span>
      </figcaption>
    </figure>
  )
}
