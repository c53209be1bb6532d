import { createSignal } from 'solid-js'
import { PHOTO_SHOWS } from '../../../api/domain/entry/kinds/photo-taken.ts'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import type { Draft } from '../../state/draft.ts'
import { usePhone } from '../../state/phone.ts'
import { showShows } from '../../state/show.ts'
import { Choice } from '../Choice.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import { createPhotoPlace, PhotoPlaceFields } from './PhotoPlace.tsx'

type Shows = BodyOf<'photo.taken'>['shows']

/** Corrects what a photo is said to show. The photo itself can't be changed. */
export const PhotoForm = (props: FormProps<'photo.taken'> & { initial: object }) => {
  const { t } = usePhone()
  const [shows, setShows] = createSignal<Shows | undefined>(props.initial?.body.shows)
  const [tried, setTried] = createSignal(false)
  const place = createPhotoPlace(props.initial?.body ?? {})
  const ready = (): Draft<'photo.taken'> | undefined => {
    const chosen = shows()
    const where = place.read()
    if (!props.initial || !chosen || where.is === 'open') return undefined
    const { occurredAt, source, evidence } = props.initial
    const { photo, bytes, type } = props.initial.body
    return {
      body: { photo, bytes, type, shows: chosen, ...where.body },
      occurredAt,
      source,
      ...(evidence ? { evidence } : {}),
    }
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)}>
      <Choice
        legend={t('photoShows')}
        options={PHOTO_SHOWS.map((value) => ({ value, label: showShows(t, value) }))}
        value={shows()}
        onPick={setShows}
      />
      <PhotoPlaceFields place={place} tried={tried()} />
    </FormFrame>
  )
}
