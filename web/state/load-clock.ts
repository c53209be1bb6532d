import type { LoadFigures } from '../../api/domain/job/figures.ts'
import type { LimitCheck } from '../../api/domain/job/limit.ts'
import type { JobView, LoadView, Ticket } from '../../api/domain/job/view.ts'
import { type LocalTime, minutesBetween } from '../../api/domain/time.ts'

/** Minutes from batching as the card shows them. */
export type LoadClock =
  | { readonly is: 'no-ticket' }
  | { readonly is: 'batching-not-stated' }
  /** Still counting; one number for each batching time that stands. */
  | { readonly is: 'running'; readonly minutes: readonly number[] }
  | { readonly is: 'ended'; readonly minutes: readonly number[] }
  /** The truck is gone and nobody logged the end of its discharge. */
  | { readonly is: 'end-not-recorded' }

export const loadClock = (load: LoadView, figures: LoadFigures, now: LocalTime): LoadClock => {
  if (load.ticket.length === 0) return { is: 'no-ticket' }
  const batched = load.ticket.flatMap(({ value }) =>
    value.batchedAt.is === 'given' ? [value.batchedAt.at] : [],
  )
  if (batched.length === 0) return { is: 'batching-not-stated' }
  if (load.ended.length > 0) return { is: 'ended', minutes: figures.batchToEnd.minutes }
  if (load.left.length > 0) return { is: 'end-not-recorded' }
  const minutes = batched.map((at) => minutesBetween(at, now)).filter((m): m is number => m !== undefined)
  return { is: 'running', minutes: [...new Set(minutes)].sort((a, b) => a - b) }
}

/** One stated limit and how it stands: checked against its event, or still running towards it. */
export type LimitLine =
  | { readonly is: 'checked'; readonly check: LimitCheck }
  | {
      readonly is: 'running'
      readonly to: LimitCheck['to']
      readonly limit: number
      readonly left: number
      readonly statedBy: LimitCheck['statedBy']
    }
  /** There is a limit and no batching time to count from, or one that lies ahead of the phone's clock. */
  | {
      readonly is: 'uncountable'
      readonly to: LimitCheck['to']
      readonly limit: number
      readonly statedBy: LimitCheck['statedBy']
    }
  | { readonly is: 'not-stated' }

/**
 * For each standing ticket; where none of them states a limit, for each limit of the order too. There is no limit but one
 * that paper states.
 */
export const limitLines = (
  load: LoadView,
  figures: LoadFigures,
  now: LocalTime,
  mix: JobView['mix'] = [],
): LimitLine[] => {
  const onTickets = load.ticket.flatMap((ticket): LimitLine[] =>
    linesOf(ticket.value.limit, ticket.hash, 'ticket', [ticket], figures, now),
  )
  if (load.ticket.length === 0 || load.ticket.some(({ value }) => value.limit.is === 'given'))
    return onTickets
  const ordered = mix.flatMap(({ value, hash }) =>
    value.limit?.is === 'given' ? linesOf(value.limit, hash, 'order', load.ticket, figures, now) : [],
  )
  return [...onTickets, ...ordered]
}

const linesOf = (
  limit: Ticket['limit'],
  source: string,
  statedBy: LimitCheck['statedBy'],
  tickets: LoadView['ticket'],
  figures: LoadFigures,
  now: LocalTime,
): LimitLine[] => {
  if (limit.is !== 'given') return [{ is: 'not-stated' }]
  const checks = figures.limit.checks.filter((check) => check.source === source)
  if (checks.length > 0) return checks.map((check) => ({ is: 'checked', check }))
  const stated = { to: limit.to, limit: Number(limit.text), statedBy }
  const gone = tickets.flatMap(({ value: { batchedAt } }) => {
    const minutes = batchedAt.is === 'given' ? minutesBetween(batchedAt.at, now) : undefined
    // Batched after now: the phone's clock or the ticket's is off, and more left than the limit itself is no count.
    return minutes === undefined || minutes < 0 ? [] : [minutes]
  })
  if (gone.length === 0) return [{ is: 'uncountable', ...stated }]
  return gone.map((minutes) => ({ is: 'running', ...stated, left: stated.limit - minutes }))
}
