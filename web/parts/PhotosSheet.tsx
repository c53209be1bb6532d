import { createSignal, For, Show } from 'solid-js'
import { PROBLEMS } from '../../api/contract/problems.ts'
import { PHOTO_SHOWS } from '../../api/domain/entry/kinds/photo-taken.ts'
import { readWhen, type When } from '../state/draft.ts'
import { useJob } from '../state/job-here.ts'
import { keepPhotos, type PhotoRefused, type PhotoSaid } from '../state/keep-photos.ts'
import { usePhone } from '../state/phone.ts'
import { showShows } from '../state/show.ts'
import { Choice } from './Choice.tsx'
import { createPhotoPlace, PhotoPlaceFields } from './forms/PhotoPlace.tsx'
import { Sheet } from './Sheet.tsx'
import { WhenField } from './WhenField.tsx'

/** Several photos from one pick: what they show and where is answered first, then each is kept and logged at once. */
export const PhotosSheet = (props: { load?: string | undefined }) => {
  const phone = usePhone()
  const { t, world } = phone
  const job = useJob()
  const [shows, setShows] = createSignal<PhotoSaid['shows']>()
  const [when, setWhen] = createSignal<When>({ is: 'now' })
  const [tried, setTried] = createSignal(false)
  const [progress, setProgress] = createSignal<{ readonly kept: number; readonly all: number }>()
  const [busy, setBusy] = createSignal(false)
  const [refused, setRefused] = createSignal<readonly PhotoRefused[]>([])
  const place = createPhotoPlace(props.load ? { load: props.load } : {})
  const answered = () => {
    const is = shows()
    const where = place.read()
    const occurredAt = readWhen(when(), world.now(), job.zone())
    return is && where.is === 'body' && occurredAt
      ? { said: { shows: is, ...where.body } as PhotoSaid, occurredAt }
      : undefined
  }
  const take = async (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])]
    const answer = answered()
    if (!answer || files.length === 0) return
    setBusy(true)
    setProgress({ kept: 0, all: files.length })
    const left = await keepPhotos(phone, job.job, files, answer.said, answer.occurredAt, (kept) =>
      setProgress({ kept, all: files.length }),
    )
    // The same picture may be picked twice in a row; a browser tells only of changes.
    input.value = ''
    setRefused(left)
    setBusy(false)
  }
  return (
    <Sheet title={t('severalPhotos')} onClose={() => job.setOver(undefined)}>
      <p>{t('photosSame')}</p>
      <Choice
        small
        legend={t('photoShows')}
        options={PHOTO_SHOWS.map((value) => ({ value, label: showShows(t, value) }))}
        value={shows()}
        onPick={setShows}
      />
      <Show when={tried() && !shows()}>
        <p class="field-wrong">⚠ {t('stillOpen')}</p>
      </Show>
      <PhotoPlaceFields place={place} tried={tried()} />
      <WhenField when={when()} onChange={setWhen} tried={tried()} />
      <Show when={progress()}>
        {(done) => (
          <p class="sum" role="status">
            {t('photosKeptCount', { count: done().kept, all: done().all })}
          </p>
        )}
      </Show>
      <For each={refused()}>
        {({ file, trouble }) => (
          <p class="field-wrong" role="alert">
            ⚠ <span translate="no">{file}</span>: {t(PROBLEMS[trouble].says)}
          </p>
        )}
      </For>
      <div class="form-end">
        <Show
          when={answered()}
          fallback={
            <button type="button" class="main" onClick={() => setTried(true)}>
              {t('pickPhotos')}
            </button>
          }
        >
          <label class="button main" classList={{ waiting: busy() }}>
            <span aria-hidden="true">◉</span> {t('pickPhotos')}
            <input
              type="file"
              accept="image/*"
              multiple
              disabled={busy()}
              data-several
              onChange={(event) => void take(event.currentTarget)}
            />
          </label>
        </Show>
      </div>
    </Sheet>
  )
}
