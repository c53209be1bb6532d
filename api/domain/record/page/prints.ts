import type { PhotoModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { Speech } from './speech.ts'

/** What stands beside a load's figures: the paper, the water and the test that they were read from. */
export const CITED = ['ticket', 'water', 'test'] as const
export type Cited = (typeof CITED)[number]

/** Of each load and kind so many; all others are contact prints. */
const OF_ONE_KIND = 2
/** Large prints in a whole record: with more, the PDF would grow beyond what can be sent about. Source: our choice. */
const MOST_LARGE = 120

/** A load's photos of a kind that stand beside its figures, as far as their files are in the record. */
export type CitedPhotos = (load: string, shows: Cited) => readonly PhotoModel[]

export const citedPhotosOf = ({ job, photosHeld }: RecordModel): CitedPhotos => {
  const held = new Set(photosHeld)
  const chosen = job.loads
    .flatMap(({ load, photos }) =>
      CITED.flatMap((shows) =>
        photos
          .filter((photo) => photo.shows === shows && held.has(photo.photo))
          .slice(0, OF_ONE_KIND)
          .map((photo) => ({ load, photo })),
      ),
    )
    .slice(0, MOST_LARGE)
  return (load, shows) =>
    chosen.filter((one) => one.load === load && one.photo.shows === shows).map(({ photo }) => photo)
}

/** Entries of the photos that stand beside figures. */
export const citedEntries = (model: RecordModel): ReadonlySet<string> => {
  const cited = citedPhotosOf(model)
  return new Set(
    model.job.loads.flatMap(({ load }) =>
      CITED.flatMap((shows) => cited(load, shows).map(({ entry }) => entry)),
    ),
  )
}

/** Enough of a photo's hash to find its file in `photos/` by. */
const SHORT = 12
export const shortHash = (photo: string): string => photo.slice(0, SHORT)

export const CAPTION_LINES = 3
/** What, where; when and by whom; its file. */
export const captionOf = (photo: PhotoModel, place: string | undefined, speech: Speech): string[] => {
  const where = speech.where(photo.part === undefined ? [] : [photo.part], photo.where)
  const what = [place, speech.words.codes[photo.shows], where].filter(Boolean).join(', ')
  return [
    what,
    speech.said(speech.time(photo.at), photo),
    speech.say('recPrintFile', { hash: shortHash(photo.photo) }),
  ]
}
