import type { PhotoModel, RemarkModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import type { Speech } from './speech.ts'

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
  const lines = [
    ...loads.flatMap((load) => load.photos.map(line(speech.place(load.load)))),
    ...photos.map(line(speech.place(undefined))),
  ]
  return section(speech.say('recPhotos'), orElse(lines, speech.say('recNoPhotos')))
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
