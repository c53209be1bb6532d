import type { LoadFigures } from '../../api/domain/job/figures.ts'
import type { LimitCheck } from '../../api/domain/job/limit.ts'
import type { LoadView } from '../../api/domain/job/view.ts'
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

/** One ticket's own limit and how it stands: checked against its event, or still running towards it. */
export type LimitLine =
  | { readonly is: 'checked'; readonly check: LimitCheck }
  | { readonly is: 'running'; readonly to: LimitCheck['to']; readonly limit: number; readonly left: number }
  /** The ticket has a limit and no batching time to count from. */
  | { readonly is: 'uncountable'; readonly to: LimitCheck['to']; readonly limit: number }
  | { readonly is: 'not-stated' }

/** For each standing ticket. There is no limit but the one that a ticket states. */
export const limitLines = (load: LoadView, figures: LoadFigures, now: LocalTime): LimitLine[] =>
  load.ticket.flatMap(({ value, hash }): LimitLine[] => {
    if (value.limit.is !== 'given') return [{ is: 'not-stated' }]
    const checks = figures.limit.checks.filter((check) => check.source === hash)
    if (checks.length > 0) return checks.map((check) => ({ is: 'checked', check }))
    const limit = Number(value.limit.text)
    const gone = value.batchedAt.is === 'given' ? minutesBetween(value.batchedAt.at, now) : undefined
    const { to } = value.limit
    return [
      gone === undefined
        ? { is: 'uncountable', to, limit }
        : { is: 'running', to, limit, left: limit - gone },
    ]
  })
