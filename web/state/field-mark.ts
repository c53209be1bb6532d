import { type Half, readClock } from './clock-text.ts'
import type { TicketDraft, When } from './draft.ts'
import type { Words } from './language.ts'

/** Why a field has no answer yet: nothing was given, or what was given can't be read. */
export type Mark = 'open' | 'unreadable'

/** The mark's words. Whoever typed something is told how to write it, not that it is missing. */
export const markWords = (t: Words, mark: Mark | undefined, example: string): string | undefined => {
  if (mark === undefined) return undefined
  return mark === 'open' ? t('stillOpen') : t('cantRead', { example })
}

/** How each field is written, the same in both languages. */
export const EXAMPLES = {
  number: 'A-71340',
  truck: 'A-71',
  yards: '8.5',
  ordered: '18.5',
  gallons: '8.5',
  clock: '0705',
  limit: '90',
} as const

/** The mark of a text that no answer could be read from. */
export const textMark = (text: string): Mark => (text.trim() === '' ? 'open' : 'unreadable')

/** Of `705` the half of the day is still open; `24:61` is no clock time. */
export const clockMark = (text: string, half: Half | undefined): Mark =>
  readClock(text, half).is === 'asks-half' ? 'open' : textMark(text)

/** The mark of a ticket's field from which no answer could be read. */
export const ticketMark = (draft: TicketDraft, field: keyof TicketDraft): Mark => {
  const { text } = draft[field]
  if (field === 'batched') return clockMark(text, draft.batched.half)
  // A limit that reads well still needs the event that it runs to.
  if (field === 'limit' && LIMIT_TEXT.test(text.trim())) return 'open'
  return textMark(text)
}

export const LIMIT_TEXT = /^[1-9]\d{0,2}$/

/** The mark of a time of which nothing could be made. */
export const whenMark = (when: When): Mark => (when.is === 'at' ? clockMark(when.text, when.half) : 'open')
