import type { Kind } from '../../entry/registry.ts'
import type { LabelKey } from '../../words/labels.ts'
import type { EntryModel, Statement } from '../history.ts'
import type { PhotoModel } from '../load-model.ts'
import { batchedText, givenText, limitText, slumpText, waterText, yardsText } from './answers.ts'
import type { Speech } from './speech.ts'

/** What kind of thing an entry says; the compiler asks for a new kind's word. */
const KIND_WORDS: Readonly<Record<Kind, LabelKey>> = {
  'company.founded': 'recKindCompany',
  'owner.named': 'recKindCompany',
  'person.added': 'recKindCompany',
  'role.changed': 'recKindCompany',
  'device.enrolled': 'recKindCompany',
  'device.withdrawn': 'recKindCompany',
  'entry.refused': 'recKindCompany',
  'job.opened': 'recKindJob',
  'concrete.ordered': 'recKindOrdered',
  'ticket.recorded': 'recKindTicket',
  'load.arrived': 'recArrived',
  'discharge.started': 'recStarted',
  'discharge.ended': 'recEnded',
  'load.left': 'recLeft',
  'water.added': 'recWater',
  'slump.measured': 'recSlumpRow',
  'photo.taken': 'recKindPhoto',
  'photo.received': 'recKindReceived',
  'remark.made': 'recKindRemark',
  'entry.withdrawn': 'recKindWithdrawn',
}

/** `Slump, load 2`: what an entry is about. */
export const aboutText = (entry: Statement, speech: Speech): string => {
  const what = speech.say(KIND_WORDS[entry.kind])
  const load = 'load' in entry.body ? entry.body.load : undefined
  return load === undefined ? what : `${what} (${speech.place(load)})`
}

/** What it says, in one line; times are those of the event. */
export const valueText = (entry: EntryModel, speech: Speech): string => {
  switch (entry.kind) {
    case 'job.opened':
      return `${entry.body.name}, ${entry.body.zone}`
    case 'concrete.ordered':
      return speech.quantity(entry.body.yards)
    case 'ticket.recorded':
      return speech.say('recTicketSays', {
        number: givenText(entry.body.number, speech),
        truck: givenText(entry.body.truck, speech),
        yards: yardsText(entry.body.yards, speech),
        batched: batchedText(entry.body.batchedAt, speech),
        limit: limitText(entry.body.limit, speech),
      })
    case 'water.added':
      return waterText(entry.body.amount, speech)
    case 'slump.measured':
      return slumpText(entry.body, speech)
    case 'photo.taken':
      return `${speech.say(SHOWS[entry.body.shows])}, ${entry.body.photo}`
    case 'photo.received':
      return entry.body.photo
    case 'remark.made':
      return entry.body.remark.text
    case 'entry.withdrawn':
      return (entry.corrects ?? []).map((hash) => `${speech.countOf(hash) ?? hash}`).join(', ')
    default:
      return speech.time(entry.at)
  }
}

export const SHOWS: Readonly<Record<PhotoModel['shows'], LabelKey>> = {
  ticket: 'recShowsTicket',
  load: 'recShowsLoad',
  base: 'recShowsBase',
  surface: 'recShowsSurface',
  defect: 'recShowsDefect',
  other: 'recShowsOther',
}
