import type { ChangeModel, EntryModel } from '../history.ts'
import type { PhotoModel, RemarkModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import type { Speech } from './speech.ts'
import { aboutText, valueText } from './statement.ts'

const section = (heading: string, items: readonly string[]): Block[] => [
  { is: 'heading', text: heading },
  { is: 'list', items },
]

const orElse = (items: readonly string[], none: string): readonly string[] =>
  items.length > 0 ? items : [none]

export const yardsBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const yards = (sum: RecordModel['job']['difference']) =>
    sum.is === 'given' ? speech.quantity({ text: sum.yards, unit: 'yd3' }) : speech.say('recNotRecorded')
  const { ticketed, ordered, difference } = job
  return section(speech.say('recYardsHead'), [
    speech.say('recYardsLine', {
      ordered: speech.marked(yards(ordered.sum), ordered.orders),
      ticketed: speech.quantity({ text: ticketed.yards, unit: 'yd3' }),
      difference: yards(difference),
    }),
    ...(ticketed.loadsWithout > 0 ? [speech.say('recYardsWithout', { n: ticketed.loadsWithout })] : []),
  ])
}

export const photoBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const held = new Set(model.photosHeld)
  const line = (place: string) => (photo: PhotoModel) =>
    speech.say('recPhotoLine', {
      place,
      shows: speech.words.codes[photo.shows],
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

/** Receipt this many minutes after recording is told of: no network meanwhile, or a clock that was off. */
const RECEIPT_MINUTES = 60
/** Receipt before recording by no more than this is two good clocks that differ a little. */
const AHEAD_MINUTES = 2

/** `entry 18 (1440 min), …`: entries received long after, or before, the time that their device's clock gave them. */
export const oddReceipts = (history: readonly EntryModel[], speech: Speech): string | undefined => {
  const texts = history
    .flatMap(({ entry, receiptMinutes: minutes }) => {
      const n = speech.countOf(entry)
      return n === undefined ||
        minutes === undefined ||
        (minutes >= -AHEAD_MINUTES && minutes <= RECEIPT_MINUTES)
        ? []
        : [{ n, minutes }]
    })
    .sort((a, b) => a.n - b.n)
    .map((odd) => speech.say('recEntryMinutes', odd))
  return texts.length === 0 ? undefined : texts.join(', ')
}

export const delayBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const late = job.history
    .filter((entry) => entry.late === 'yes')
    .map((entry) =>
      speech.say('recLateLine', {
        n: speech.countOf(entry.entry) ?? '?',
        what: aboutText(entry, speech),
        value: valueText(entry, speech),
        time: speech.time(entry.at),
        minutes: entry.delayMinutes,
        who: speech.who(entry.by),
      }),
    )
  const delays = job.history.flatMap(({ receiptMinutes }) =>
    receiptMinutes === undefined ? [] : [receiptMinutes],
  )
  const receipt = speech.say('recReceipt', {
    shortest: delays.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    longest: delays.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
  })
  const odd = oddReceipts(job.history, speech)
  return section(speech.say('recDelays'), [
    ...orElse(late, speech.say('recNoLate')),
    ...(delays.length > 0 ? [receipt] : []),
    ...(odd === undefined ? [] : [speech.say('recReceiptOdd', { entries: odd })]),
  ])
}
