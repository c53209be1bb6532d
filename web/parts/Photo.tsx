import { createEffect, createSignal, on, onCleanup, Show } from 'solid-js'
import type { Photo as PhotoFact } from '../../api/domain/job/view.ts'
import { useJob } from '../state/job-here.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'
import { showPhoto, showShows } from '../state/show.ts'
import { readPhoto } from '../sync/photos.ts'
import { Answer } from './Answer.tsx'

/** A photo, from this phone's own bytes where it has them, else from the server. */
export const Photo = (props: { hash: string; photo: PhotoFact }) => {
  const { t, own } = usePhone()
  const job = useJob()
  const bytesAre = () => {
    const known = own.photo(props.photo.photo)
    if (props.photo.received || known?.sent) return t('photoOnServer')
    return known ? t('photoOnPhone') : t('photoNotArrived')
  }
  return (
    <figure class="photo">
      <button type="button" class="photo-open" onClick={() => job.setOver({ is: 'entry', hash: props.hash })}>
        <PhotoImage photo={props.photo} size="small" />
      </button>
      <figcaption>
        <Answer hash={props.hash} value={showPhoto(t, props.photo, job.names(t))} />
        <span class="small">{bytesAre()}</span>
      </figcaption>
    </figure>
  )
}

type Pictured = Pick<PhotoFact, 'photo' | 'type' | 'shows'>

/**
 * The picture itself: this phone's own bytes, else the server's smaller drawing, else the photo as it was received. Where
 * the browser can't draw it, that is said in its place.
 */
export const PhotoImage = (props: { photo: Pictured; size: 'small' | 'large' }) => {
  const { t, own, world } = usePhone()
  const [failed, setFailed] = createSignal(0)
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
  // Once the phone holds the bytes themselves, nothing that failed before matters.
  createEffect(on(kept, () => setFailed(0), { defer: true }))
  const onServer = () => `/api/photos/${props.photo.photo}`
  const sources = () => [
    ...(kept() ? [mine.value()] : []),
    `${onServer()}/${props.size}`,
    ...(kept() ? [] : [onServer()]),
  ]
  const url = () => sources()[failed()]
  onCleanup(() => {
    for (const made of urls) URL.revokeObjectURL(made)
  })
  return (
    <Show when={failed() < sources().length} fallback={<span class="photo-none">{t('photoNoPreview')}</span>}>
      <Show when={url()}>
        {(src) => (
          <img
            src={src()}
            alt={showShows(t, props.photo.shows)}
            loading="lazy"
            onError={() => setFailed(failed() + 1)}
          />
        )}
      </Show>
    </Show>
  )
}
