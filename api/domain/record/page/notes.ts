import type { ChangeModel, EntryModel } from '../history.ts'
import type { PhotoModel, RemarkModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import type { Speech } from './speech.ts'
import { aboutText, valueText } from './statement.ts'

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

export const changeBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const entries = new Map(job.history.map((entry) => [entry.entry, entry]))
  const lines = job.changes.flatMap((change) => changeLine(change, entries, speech))
  return section(speech.say('recChanges'), orElse(lines, speech.say('recNoChanges')))
}

/** Old value, new value, who, when and why: the first value is never hidden. */
const changeLine = (
  change: ChangeModel,
  entries: ReadonlyMap<string, EntryModel>,
  speech: Speech,
): string[] => {
  const entry = entries.get(change.entry)
  if (!entry) return []
  const before = change.names.map((hash) => {
    const old = entries.get(hash)
    if (!old) return speech.say('recBeforeUnknown')
    const value = speech.said(valueText(old, speech), old)
    const about = change.is === 'withdrawal' ? `${aboutText(old, speech)}: ${value}` : value
    return speech.say('recBefore', { n: speech.countOf(hash) ?? '?', value: about })
  })
  const line = speech.say(change.is === 'withdrawal' ? 'recWithdrawal' : 'recCorrection', {
    who: speech.who(entry.by),
    time: speech.time(entry.recordedAt),
    n: speech.countOf(entry.entry) ?? '?',
    what: aboutText(entry, speech),
    before: before.join('; '),
    now: valueText(entry, speech),
    why: entry.why?.text ?? speech.say('recWhyNot'),
  })
  return [entry.stands === 'stands' ? line : `${line} ${speech.say('recOverruled')}`]
}
