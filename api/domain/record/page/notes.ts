import type { PhotoModel, RemarkModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import { captionOf, citedEntries } from './prints.ts'
import type { Speech } from './speech.ts'

/** Contact prints in a row. */
const ACROSS = 4

export const photoBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const held = new Set(model.photosHeld)
  const line = (place: string) => (photo: PhotoModel) =>
    speech.say('recPhotoLine', {
      place,
      shows: [
        speech.words.codes[photo.shows],
        speech.where(photo.part === undefined ? [] : [photo.part], photo.where),
      ]
        .filter(Boolean)
        .join(', '),
      said: speech.said(speech.time(photo.at), photo),
      bytes: photo.bytes,
      photo: photo.photo,
      state: held.has(photo.photo)
        ? ''
        : speech.say(photo.received === 'yes' ? 'recPhotoNotHeld' : 'recPhotoNotReceived'),
    })
  const { loads, photos } = model.job
  const all = [
    ...loads.flatMap(({ load, photos: own }) => own.map((photo) => ({ photo, place: speech.place(load) }))),
    ...photos.map((photo) => ({ photo, place: speech.place(undefined) })),
  ]
  const cited = citedEntries(model)
  const printed = all.filter(({ photo }) => held.has(photo.photo) && !cited.has(photo.entry))
  const elsewhere = all
    .filter(({ photo }) => !held.has(photo.photo))
    .map(({ photo, place }) => line(place)(photo))
  return [
    { is: 'heading', text: speech.say('recPhotos') },
    {
      is: 'paragraph',
      text:
        all.length === 0
          ? speech.say('recNoPhotos')
          : speech.say('recPrintsAre', { n: all.length, cited: cited.size }),
    },
    ...(printed.length === 0
      ? []
      : [
          {
            is: 'prints',
            across: ACROSS,
            prints: printed.map(({ photo, place }) => ({
              photo: photo.photo,
              print: 'contact' as const,
              lines: captionOf(photo, place, speech),
            })),
          } as const,
        ]),
    ...(elsewhere.length === 0 ? [] : [{ is: 'list', items: elsewhere } as const]),
  ]
}

export const remarkBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const line = (place: string) => (remark: RemarkModel) =>
    speech.say('recRemarkLine', {
      place,
      text: remark.text,
      said: speech.said(speech.time(remark.at), remark),
    })
  const lines = [
    ...job.loads.flatMap((load) => load.remarks.map(line(speech.place(load.load)))),
    ...job.remarks.map(line(speech.place(undefined))),
  ]
  return section(speech.say('recRemarks'), orElse(lines, speech.say('recNoRemarks')))
}
