import type { Verdict } from '../trade/finding.ts'
import { minutesOf } from './minutes.ts'
import type { JobView, LoadView, Said } from './view.ts'

export type { Verdict }

export type LimitCheck = {
  /** The event that the limit runs to. */
  readonly to: 'discharge-started' | 'discharge-ended'
  readonly limitMinutes: number
  readonly minutes: number
  readonly verdict: Verdict
  /** Hash of the entry where the limit is stated. */
  readonly source: string
  /** Who states it: this load's ticket, or the order where the ticket states none. */
  readonly statedBy: 'ticket' | 'order'
}

export type LimitFigure = { readonly verdict: Verdict; readonly checks: readonly LimitCheck[] }

type Stated = {
  readonly limit: { readonly text: string; readonly to: LimitCheck['to'] }
  readonly source: string
  readonly statedBy: LimitCheck['statedBy']
}

/**
 * Minutes from batching against the limit on each standing ticket, or against the order's where no ticket states one. No
 * limit is ever assumed. Source: ASTM C94/C94M-21, which leaves the limit to purchaser or producer and has it on the ticket.
 */
export const limitFigure = (load: LoadView, mix: JobView['mix']): LimitFigure => {
  if (load.ticket.length === 0) return { verdict: 'not-recorded', checks: [] }
  const onTicket = load.ticket.flatMap(({ value: { limit }, hash }): Stated[] =>
    limit.is === 'given' ? [{ limit, source: hash, statedBy: 'ticket' }] : [],
  )
  const stated = onTicket.length > 0 ? onTicket : limitsOrdered(mix)
  const checks = stated.flatMap((one) => checksOf(load, one))
  if (checks.some((c) => c.verdict === 'outside')) return { verdict: 'outside', checks }
  if (stated.length === 0) return { verdict: 'limit-not-stated', checks }
  // Inside only if every limit that is stated could be compared.
  const compared = stated.every(({ source }) => checks.some((c) => c.source === source))
  return { verdict: compared ? 'inside' : 'not-recorded', checks }
}

const limitsOrdered = (mix: JobView['mix']): Stated[] =>
  mix.flatMap(({ value: { limit }, hash }): Stated[] =>
    limit?.is === 'given' ? [{ limit, source: hash, statedBy: 'order' }] : [],
  )

const checksOf = (load: LoadView, { limit, source, statedBy }: Stated): LimitCheck[] => {
  const limitMinutes = Number(limit.text)
  const events = (limit.to === 'discharge-ended' ? load.ended : load.started).map((s) => s.value)
  // A ticket's limit runs from that ticket's own batching time.
  const batched = batchingTimes(
    statedBy === 'ticket' ? load.ticket.filter((s) => s.hash === source) : load.ticket,
  )
  // An end before its beginning is an oddity of the log, and says nothing about a limit.
  const forward = minutesOf(batched, events).minutes.filter((minutes) => minutes >= 0)
  return forward.map((minutes) => ({
    to: limit.to,
    limitMinutes,
    minutes,
    source,
    statedBy,
    verdict: minutes <= limitMinutes ? 'inside' : 'outside',
  }))
}

/** Batching times that the tickets state: several where they differ. */
export const batchingTimes = (tickets: readonly Said<LoadView['ticket'][number]['value']>[]): string[] =>
  tickets.flatMap(({ value: { batchedAt } }) => (batchedAt.is === 'given' ? [batchedAt.at] : []))
