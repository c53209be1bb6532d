import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../api/domain/job/figures.ts'
import { emptyJob, emptyLoad } from '../../api/domain/job/fold.ts'
import type { JobView, LoadView, Said, Ticket } from '../../api/domain/job/view.ts'
import { limitLines, loadClock } from '../../web/state/load-clock.ts'

const said = <T>(value: T, hash = 'a'.repeat(64)): Said<T> => ({
  hash,
  value,
  at: '2026-04-21T09:38-05:00',
  late: false,
  ahead: false,
})

const ticket = (limit: Ticket['limit'], batched = '2026-04-21T08:21-05:00'): Ticket => ({
  number: { is: 'given', text: '71352' },
  truck: { is: 'given', text: '106' },
  yards: { is: 'given', text: '8', unit: 'yd3' },
  batchedAt: { is: 'given', at: batched },
  limit,
})
const ninety: Ticket['limit'] = { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' }
const none: Ticket['limit'] = { is: 'not-stated' }

const load = (part: Partial<LoadView>): LoadView => ({
  id: 'load',
  ordinal: 1,
  joined: [],
  ...emptyLoad(),
  ...part,
})

const shown = (part: Partial<LoadView>, now: string, mix: JobView['mix'] = []) => {
  const is = load(part)
  const job: JobView = {
    job: 'job',
    ...emptyJob(),
    mix: [...mix],
    loads: [is],
    history: [],
    unread: 0,
  }
  const figures = jobFigures(job).loads[0]!
  return { clock: loadClock(is, figures, now), limits: limitLines(is, figures, now, mix) }
}

describe('the minutes on a load’s card', () => {
  test('they run from batching, against the ticket’s own limit', () => {
    expect(shown({ ticket: [said(ticket(ninety))] }, '2026-04-21T09:38-05:00')).toEqual({
      clock: { is: 'running', minutes: [77] },
      limits: [{ is: 'running', to: 'discharge-ended', limit: 90, left: 13, statedBy: 'ticket' }],
    })
  })

  test('where the ticket states no limit there is none, and never 90', () => {
    const { limits } = shown({ ticket: [said(ticket(none))] }, '2026-04-21T12:00-05:00')
    expect(limits).toEqual([{ is: 'not-stated' }])
  })

  test('where the ticket states none and the order does, the order’s counts and is said to be the order’s', () => {
    const ordered = [
      said({ limit: { is: 'given', text: '75', unit: 'min', to: 'discharge-started' } } as const),
    ]
    const running = shown({ ticket: [said(ticket(none))] }, '2026-04-21T09:31-05:00', ordered)
    expect(running.limits).toEqual([
      { is: 'not-stated' },
      { is: 'running', to: 'discharge-started', limit: 75, left: 5, statedBy: 'order' },
    ])
    // A ticket's own limit stands before it.
    const own = shown({ ticket: [said(ticket(ninety))] }, '2026-04-21T09:31-05:00', ordered)
    expect(own.limits).toEqual([
      { is: 'running', to: 'discharge-ended', limit: 90, left: 20, statedBy: 'ticket' },
    ])
    const started = shown(
      { ticket: [said(ticket(none))], started: [said('2026-04-21T09:45-05:00')] },
      '2026-04-21T10:00-05:00',
      ordered,
    )
    expect(started.limits).toMatchObject([
      { is: 'not-stated' },
      { is: 'checked', check: { statedBy: 'order', minutes: 84, verdict: 'outside' } },
    ])
  })

  test('past the limit they count on and say by how much', () => {
    const { limits } = shown({ ticket: [said(ticket(ninety))] }, '2026-04-21T10:00-05:00')
    expect(limits).toEqual([
      { is: 'running', to: 'discharge-ended', limit: 90, left: -9, statedBy: 'ticket' },
    ])
  })

  test('on a phone whose clock stands before the batching, nothing is said to be left', () => {
    const { limits } = shown({ ticket: [said(ticket(ninety))] }, '2026-04-20T09:38-05:00')
    expect(limits).toEqual([{ is: 'uncountable', to: 'discharge-ended', limit: 90, statedBy: 'ticket' }])
  })

  test('once discharge has ended they stand, with where they lie', () => {
    const ended = [said('2026-04-21T10:19:30.000-05:00')]
    const { clock, limits } = shown({ ticket: [said(ticket(ninety))], ended }, '2026-04-21T15:00-05:00')
    expect(clock).toEqual({ is: 'ended', minutes: [118] })
    expect(limits).toMatchObject([
      { is: 'checked', check: { minutes: 118, limitMinutes: 90, verdict: 'outside' } },
    ])
  })

  test('two tickets that stand give two figures and two limits', () => {
    const two = [said(ticket(ninety)), said(ticket(none, '2026-04-21T08:51-05:00'), 'b'.repeat(64))]
    const { clock, limits } = shown({ ticket: two }, '2026-04-21T09:38-05:00')
    expect(clock).toEqual({ is: 'running', minutes: [47, 77] })
    expect(limits.map((line) => line.is)).toEqual(['running', 'not-stated'])
  })

  test('without a ticket, without its time, or with the truck gone, it says which', () => {
    const unstated = { ...ticket(ninety), batchedAt: none }
    const now = '2026-04-21T09:38-05:00'
    expect(shown({}, now).clock).toEqual({ is: 'no-ticket' })
    expect(shown({ ticket: [said(unstated)] }, now).clock).toEqual({ is: 'batching-not-stated' })
    expect(shown({ ticket: [said(unstated)] }, now).limits).toEqual([
      { is: 'uncountable', to: 'discharge-ended', limit: 90, statedBy: 'ticket' },
    ])
    expect(shown({ ticket: [said(ticket(ninety))], left: [said(now)] }, now).clock).toEqual({
      is: 'end-not-recorded',
    })
  })
})
