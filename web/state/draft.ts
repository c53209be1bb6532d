import type { Happening } from '../../api/domain/entry/make.ts'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import { clockTimeNear, readLocalTime, toLocalTime } from '../../api/domain/time.ts'
import { type Half, lastTimeAt, readClock, timeOnDay } from './clock-text.ts'
import { LIMIT_TEXT } from './field-mark.ts'
import { readQuantity } from './quantity-text.ts'

/** What a form gives when all of it was answered. */
export type Draft<K extends Kind = Kind> = {
  readonly body: BodyOf<K>
  readonly occurredAt: LocalTime
  readonly source: Happening<K>['source']
  readonly evidence?: readonly string[]
}

/** A field that may be answered with "not on the ticket". Empty is no answer. */
export type Stated = { readonly text: string; readonly notStated: boolean }
export const NOTHING_STATED: Stated = { text: '', notStated: false }

/** When it happened: at the tap, or at a clock time that the person gives. */
export type When =
  | { readonly is: 'now' }
  | { readonly is: 'kept' }
  | {
      readonly is: 'at'
      readonly text: string
      readonly half: Half | undefined
      /** Days later (or earlier, below zero) than the day that the clock time would mean by itself. */
      readonly days?: number
    }

export type TicketDraft = {
  readonly number: Stated
  readonly truck: Stated
  readonly yards: Stated
  readonly batched: Stated & { readonly half: Half | undefined }
  readonly limit: Stated & { readonly to: 'discharge-started' | 'discharge-ended' | undefined }
}

export const EMPTY_TICKET: TicketDraft = {
  number: NOTHING_STATED,
  truck: NOTHING_STATED,
  yards: NOTHING_STATED,
  batched: { ...NOTHING_STATED, half: undefined },
  limit: { ...NOTHING_STATED, to: undefined },
}

export type Around = { readonly near: number; readonly zone: string }

/** The fields of a ticket that still need an answer, or the ticket. Nothing is filled in for anyone. */
export const readTicket = (
  draft: TicketDraft,
  load: string,
  { near, zone }: Around,
): { readonly open: readonly (keyof TicketDraft)[] } | { readonly ticket: BodyOf<'ticket.recorded'> } => {
  const number = statedText(draft.number, /^[0-9A-Za-z-]{1,16}$/)
  const truck = statedText(draft.truck, /^[0-9A-Za-z-]{1,12}$/)
  const yards = statedQuantity(draft.yards)
  const batchedAt = readBatched(draft.batched, { near, zone })
  const limit = statedLimit(draft.limit)
  if (number && truck && yards && batchedAt && limit) {
    const inYards = yards.is === 'given' ? { ...yards, unit: 'yd3' as const } : yards
    return { ticket: { load, number, truck, yards: inYards, batchedAt, limit } }
  }
  const read = { number, truck, yards, batched: batchedAt, limit }
  return { open: (Object.keys(read) as (keyof TicketDraft)[]).filter((field) => read[field] === undefined) }
}

const NOT_STATED = { is: 'not-stated' } as const

const statedText = ({ text, notStated }: Stated, pattern: RegExp) => {
  if (notStated) return NOT_STATED
  const tidy = text.trim().replace(/\s+/g, ' ')
  return pattern.test(tidy) ? ({ is: 'given', text: tidy } as const) : undefined
}

const statedQuantity = ({ text, notStated }: Stated) => {
  if (notStated) return NOT_STATED
  const read = readQuantity(text)
  return read === undefined ? undefined : ({ is: 'given', text: read } as const)
}

/** The batching time as it stands in the form; undefined while it is open. */
export const readBatched = ({ text, notStated, half }: TicketDraft['batched'], { near, zone }: Around) => {
  if (notStated) return NOT_STATED
  const read = readClock(text, half)
  const at = read.is === 'clock' ? lastTimeAt(read.clock, near, zone) : undefined
  return at === undefined ? undefined : ({ is: 'given', at } as const)
}

const statedLimit = ({ text, notStated, to }: TicketDraft['limit']) => {
  if (notStated) return NOT_STATED
  return LIMIT_TEXT.test(text.trim()) && to
    ? ({ is: 'given', text: text.trim(), unit: 'min', to } as const)
    : undefined
}

/** The time that `when` means, or undefined where it still needs an answer. */
export const readWhen = (when: When, now: number, zone: string, kept?: LocalTime): LocalTime | undefined => {
  if (when.is === 'now') return toLocalTime(now, zone)
  if (when.is === 'kept') return kept
  const read = readClock(when.text, when.half)
  if (read.is !== 'clock') return undefined
  // A corrected time stays on the day that was logged: a slip of hours must not become a slip of a day.
  const logged = kept === undefined ? undefined : readLocalTime(kept)
  const time =
    logged === undefined ? lastTimeAt(read.clock, now, zone) : clockTimeNear(read.clock, logged, zone)
  return time && when.days ? timeOnDay(read.clock, time, when.days, zone) : time
}

/** A ticket as logged, back in its form, for a correction. */
export const ticketDraftOf = (ticket: Omit<BodyOf<'ticket.recorded'>, 'load'>): TicketDraft => ({
  number: statedOf(ticket.number),
  truck: statedOf(ticket.truck),
  yards: statedOf(ticket.yards),
  batched: {
    ...(ticket.batchedAt.is === 'given'
      ? { text: clockDigits(ticket.batchedAt.at), notStated: false }
      : UNSTATED),
    half: halfOf(ticket.batchedAt.is === 'given' ? ticket.batchedAt.at : undefined),
  },
  limit: { ...statedOf(ticket.limit), to: ticket.limit.is === 'given' ? ticket.limit.to : undefined },
})

const UNSTATED: Stated = { text: '', notStated: true }
const statedOf = (value: { is: 'given'; text: string } | { is: 'not-stated' }): Stated =>
  value.is === 'given' ? { text: value.text, notStated: false } : UNSTATED

export const clockDigits = (time: LocalTime): string => time.slice(11, 16)
/** `10:20` reads as either half by itself; a logged time knows which. */
export const halfOf = (time: LocalTime | undefined): Half | undefined =>
  time === undefined ? undefined : Number(time.slice(11, 13)) < 12 ? 'am' : 'pm'
