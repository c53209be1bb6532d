import { createSignal, type JSX, Show } from 'solid-js'
import { PROBLEMS } from '../../api/contract/problems.ts'
import type { BodyOf } from '../../api/domain/entry/registry.ts'
import { useJob } from '../state/job-here.ts'
import { keepPhotos, type PhotoTrouble } from '../state/keep-photos.ts'
import { usePhone } from '../state/phone.ts'

/** One touch opens the camera; what it shows is known by the button. Kept on the phone before anything else. */
export const PhotoButton = (props: {
  shows: BodyOf<'photo.taken'>['shows']
  load: string
  children: JSX.Element
}) => {
  const phone = usePhone()
  const { t } = phone
  const job = useJob()
  const [keeping, setKeeping] = createSignal(false)
  const [problem, setProblem] = createSignal<PhotoTrouble>()
  const take = async (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])]
    if (files.length === 0) return
    const occurredAt = job.localNow()
    setProblem(undefined)
    setKeeping(true)
    const said = { shows: props.shows, load: props.load }
    const refused = await keepPhotos(phone, job.job, files, said, occurredAt, () => {})
    // The same picture may be picked twice in a row; a browser tells only of changes.
    input.value = ''
    setProblem(refused[0]?.trouble)
    setKeeping(false)
  }
  return (
    <>
      <label class="button" classList={{ waiting: keeping() }}>
        <span aria-hidden="true">◉</span> {keeping() ? t('keeping') : props.children}
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={keeping()}
          data-at-truck={props.shows}
          onChange={(event) => void take(event.currentTarget)}
        />
      </label>
      <Show when={problem()}>
        {(code) => (
          <p class="field-wrong" role="alert">
            ⚠ {t(PROBLEMS[code()].says)}
          </p>
        )}
      </Show>
    </>
  )
}
