import { minutesBetween } from '../../time.ts'
import { dischargeFinding, type LimitEvent, OWN_LIMITS } from '../../trade/discharge.ts'
import { type Duration, type Measure, whole } from '../../trade/measure.ts'
import { isSentBack } from '../sent-back.ts'
import type { JobView, LoadView, Said, Ticket } from '../view.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import { entered, type JobFinding, jobFinding, limitOf, type Missing } from './finding.ts'

type Stated = {
  readonly minutes: Duration
  readonly to: LimitEvent
  readonly by: 'ticket' | 'order'
  readonly hash: string
}

/**
 * Minutes from batching to the event of each limit, and the drum's turns where a ticket has them: against what tickets
 * state, else the order, else the chosen edition's own. Of the newest edition nothing is taken for granted.
 * Source: as `dischargeFinding`.
 */
export const dischargeFindings = (job: JobView, editions: JobEditions): JobFinding[] =>
  job.loads
    .filter((load) => !isSentBack(load))
    .flatMap((load) => editions.discharge.flatMap((rule) => ofRule(load, job, rule)))

const ofRule = (load: LoadView, job: JobView, rule: Used<'discharge'>): JobFinding[] => {
  const stated = statedLimits(load, job)
  return [
    ...(stated.length === 0
      ? minutesTo(load, undefined, rule)
      : stated.flatMap((one) => minutesTo(load, one, rule))),
    ...revolutions(load, rule),
  ]
}

const statedLimits = (load: LoadView, { mix }: JobView): Stated[] => {
  const limits = (
    all: readonly Said<{ readonly limit?: Ticket['limit'] | undefined }>[],
    by: Stated['by'],
  ): Stated[] =>
    all.flatMap(({ hash, value: { limit } }) =>
      limit?.is === 'given' ? [{ minutes: whole(Number(limit.text), 'min'), to: limit.to, by, hash }] : [],
    )
  const onTickets = limits(load.ticket, 'ticket')
  return onTickets.length > 0 ? onTickets : limits(mix, 'order')
}

const minutesTo = (load: LoadView, stated: Stated | undefined, rule: Used<'discharge'>): JobFinding[] => {
  // The older editions limit the completion of discharge.
  const event = stated?.to ?? 'discharge-ended'
  const tickets =
    stated?.by === 'ticket' ? load.ticket.filter((one) => one.hash === stated.hash) : load.ticket
  const batched = tickets.flatMap(({ hash, value: { batchedAt } }) =>
    batchedAt.is === 'given' ? [{ hash, at: batchedAt.at }] : [],
  )
  const ends = event === 'discharge-ended' ? load.ended : load.started
  const edition = { editions: [named('discharge', rule)], load: load.id } as const
  const base = [...(stated ? [stated.hash] : []), ...rule.chosenIn, ...load.waived.map(({ hash }) => hash)]
  const of = {
    of: 'discharge-minutes',
    ...edition,
    notes: load.waived.length > 0 ? (['waived'] as const) : [],
  } as const
  const found = batched.flatMap((from) =>
    ends.flatMap((end) => {
      const minutes = minutesBetween(from.at, end.value)
      if (minutes === undefined || minutes < 0) return []
      const result = dischargeFinding({
        rule: rule.edition,
        event,
        elapsed: whole(minutes, 'min'),
        ...(stated ? { stated } : {}),
      })
      if (!result.ok) return []
      const { limit, verdict } = result.value.minutes
      return [
        jobFinding({
          ...of,
          at: end.value,
          value: { text: String(minutes), unit: 'min' },
          ...limitOf(limit),
          verdict,
          entries: [from.hash, end.hash, ...base],
        }),
      ]
    }),
  )
  if (found.length > 0) return found
  const missing: Missing[] = [
    ...(load.ticket.length === 0
      ? (['ticket'] as const)
      : batched.length === 0
        ? (['batched'] as const)
        : []),
    ...(ends.length > 0
      ? []
      : ([event === 'discharge-ended' ? 'discharge-end' : 'discharge-start'] as const)),
  ]
  const limit = stated ? { most: stated.minutes, source: stated.by } : ownLimit(rule, 'minutes')
  return [
    jobFinding({
      ...of,
      ...limitOf(limit),
      verdict: limit || load.ticket.length === 0 ? 'not-recorded' : 'limit-not-stated',
      missing,
      entries: [...batched.map(({ hash }) => hash), ...base],
    }),
  ]
}

/** Few tickets print the count: without one, and without a limit on it, nothing is said. */
const revolutions = (load: LoadView, rule: Used<'discharge'>): JobFinding[] => {
  const limit = ownLimit(rule, 'revolutions')
  const of = {
    of: 'drum-revolutions',
    load: load.id,
    ...limitOf(limit),
    editions: [named('discharge', rule)],
  } as const
  const counts = load.ticket.flatMap(({ hash, value }) => {
    const count = value.revolutions?.is === 'given' ? entered(value.revolutions) : undefined
    return count ? [{ hash, count }] : []
  })
  if (counts.length === 0)
    return limit
      ? [jobFinding({ ...of, verdict: 'not-recorded', missing: ['revolutions'], entries: rule.chosenIn })]
      : []
  return counts.flatMap(({ hash, count }) => {
    const result = dischargeFinding({
      rule: rule.edition,
      event: 'discharge-ended',
      elapsed: whole(0, 'min'),
      revolutions: count,
    })
    if (!result.ok || !result.value.revolutions) return []
    const value = { text: String(Number(count.n) / Number(count.d)), unit: 'one' } as const
    return [
      jobFinding({
        ...of,
        value,
        verdict: result.value.revolutions.verdict,
        entries: [hash, ...rule.chosenIn],
      }),
    ]
  })
}

const ownLimit = ({ edition }: Used<'discharge'>, of: 'minutes' | 'revolutions') => {
  const own = edition === 'C94-21' ? undefined : OWN_LIMITS[edition]
  const most: Measure | undefined = own?.[of]
  return own && most ? { most, source: own.source } : undefined
}
