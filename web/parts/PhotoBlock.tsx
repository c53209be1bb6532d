import { createSignal, For, Show } from 'solid-js'
import { PROBLEMS } from '../../api/contract/problems.ts'
import type { BodyOf } from '../../api/domain/entry/registry.ts'
import { useJob } from '../state/job-here.ts'
import { keepPhotos, type PhotoTrouble } from '../state/keep-photos.ts'
import { usePhone } from '../state/phone.ts'
import { showShows } from '../state/show.ts'
import { BlockHead } from './BlockHead.tsx'
import { createLatest, Earlier } from './Earlier.tsx'
import { Photo } from './Photo.tsx'

type Shows = BodyOf<'photo.taken'>['shows']
const OF_LOAD: readonly Shows[] = ['ticket', 'load', 'surface', 'other']
const OF_JOB: readonly Shows[] = ['base', 'surface', 'defect', 'other']

/** Pictures that are shown before somebody asks for all. */
const MOST = 6

/** Photos of a load, or of the job where no load is given. One touch opens the camera, and says what it will show. */
export const PhotoBlock = (props: { load?: string }) => {
  const phone = usePhone()
  const { t } = phone
  const job = useJob()
  const [keeping, setKeeping] = createSignal(false)
  const [problem, setProblem] = createSignal<PhotoTrouble>()
  const photos = () => (props.load ? job.load(props.load)?.photos : job.view().photos) ?? []
  const latest = createLatest(() => photos().map((s) => s.hash), MOST)
  const take = async (shows: Shows, input: HTMLInputElement) => {
    const files = [...(input.files ?? [])]
    if (files.length === 0) return
    // The moment is now, not when the bytes are safe.
    const occurredAt = job.localNow()
    setProblem(undefined)
    setKeeping(true)
    const said = { shows, ...(props.load ? { load: props.load } : {}) }
    const refused = await keepPhotos(phone, job.job, files, said, occurredAt, () => {})
    // The same picture may be picked twice in a row; a browser tells only of changes.
    input.value = ''
    setProblem(refused[0]?.trouble)
    setKeeping(false)
  }
  return (
    <fieldset class="block" aria-label={t('photos')}>
      <BlockHead ofLoad={props.load !== undefined}>{t('photos')}</BlockHead>
      <Earlier of={latest} />
      <div class="photos">
        <For each={latest.shown()}>
          {(hash) => {
            const said = () => photos().find((s) => s.hash === hash)
            return <Show when={said()}>{(one) => <Photo hash={hash} photo={one().value} />}</Show>
          }}
        </For>
      </div>
      <Show when={problem()}>
        {(code) => (
          <p class="field-wrong" role="alert">
            ⚠ {t(PROBLEMS[code()].says)}
          </p>
        )}
      </Show>
      <Show when={keeping()}>
        <p role="status">{t('keepingPhoto')}</p>
      </Show>
      <div class="wrap two">
        <For each={props.load ? OF_LOAD : OF_JOB}>
          {(shows) => (
            <label class="button" classList={{ waiting: keeping() }}>
              <span aria-hidden="true">◉</span> {showShows(t, shows)}
              <input
                type="file"
                accept="image/*"
                capture="environment"
                disabled={keeping()}
                data-shows={shows}
                onChange={(event) => void take(shows, event.currentTarget)}
              />
            </label>
          )}
        </For>
        <button
          type="button"
          onClick={() => job.setOver({ is: 'photos', ...(props.load ? { load: props.load } : {}) })}
        >
          {t('severalPhotos')}
        </button>
      </div>
    </fieldset>
  )
}
