import { describe, expect, test } from 'vitest'
import type { Happening } from '../../../api/domain/entry/make.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { at, entry, FIRST, JOB, stamp, ticket } from './pour.ts'

type Limit = Happening<'ticket.recorded'>['body']['limit']
const minutes = (text: string): Limit => ({ is: 'given', text, unit: 'min', to: 'discharge-ended' })
const limitOf = (entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries)).loads[0]!.limit
const ordered = (limit: Limit) => entry('mix.ordered', { limit })

/**
 * ASTM C94/C94M-21, 6.1.10 and 12.9, as reported by the American Concrete Pumping Association (2022): no limit by default;
 * the one that is stated on the ticket holds, longer or shorter than the 90 min of older editions.
 */
const STATED = [
  { stated: '120', elapsed: '08:55', took: 110, verdict: 'inside' },
  { stated: '60', elapsed: '08:20', took: 75, verdict: 'outside' },
  { stated: undefined, elapsed: '08:30', took: undefined, verdict: 'limit-not-stated' },
] as const

describe('[limit] whose limit it is', () => {
  for (const { stated, elapsed, took, verdict } of STATED)
    test(`[limit] ${stated ?? 'none'} stated, ended at ${elapsed} after 07:05: ${verdict}`, () => {
      const limit: Limit = stated === undefined ? { is: 'not-stated' } : minutes(stated)
      const found = limitOf([ticket({ limit }), stamp('discharge.ended', elapsed)])
      expect([found.verdict, found.checks[0]?.minutes]).toEqual([verdict, took])
    })

  test('[limit] the ticket’s holds before the order’s; the order’s where no ticket states one', () => {
    const end = stamp('discharge.ended', '08:20')
    const order = ordered(minutes('60'))
    expect(limitOf([order, ticket(), end])).toMatchObject({
      verdict: 'inside',
      checks: [{ limitMinutes: 90, minutes: 75, statedBy: 'ticket' }],
    })
    expect(limitOf([order, ticket({ limit: { is: 'not-stated' } }), end])).toMatchObject({
      verdict: 'outside',
      checks: [{ limitMinutes: 60, minutes: 75, statedBy: 'order', source: order.hash }],
    })
    expect(
      limitOf([ordered({ is: 'not-stated' }), ticket({ limit: { is: 'not-stated' } }), end]).verdict,
    ).toBe('limit-not-stated')
  })

  test('[limit] an order’s limit says nothing of a load whose ticket nobody recorded, or states no batching', () => {
    const end = stamp('discharge.ended', '08:20')
    expect(limitOf([ordered(minutes('60')), end]).verdict).toBe('not-recorded')
    const unbatched = ticket({ batchedAt: { is: 'not-stated' }, limit: { is: 'not-stated' } })
    expect(limitOf([ordered(minutes('60')), unbatched, end]).verdict).toBe('not-recorded')
  })

  test('[limit] a corrected ticket is measured by its own times alone', () => {
    const first = ticket({ batchedAt: { is: 'given', at: at('07:50') } })
    const corrected = ticket({}, { corrects: [first.hash] })
    const end = stamp('discharge.ended', '08:36')
    expect(limitOf([first, end])).toMatchObject({ verdict: 'inside', checks: [{ minutes: 46 }] })
    expect(limitOf([first, corrected, end])).toMatchObject({ verdict: 'outside', checks: [{ minutes: 91 }] })
  })

  test('[conflict] of two tickets that stand, each limit runs from that ticket’s own batching', () => {
    const tickets = [ticket(), ticket({ batchedAt: { is: 'given', at: at('07:50') }, limit: minutes('60') })]
    const { checks } = limitOf([...tickets, stamp('discharge.ended', '08:36')])
    expect(checks.map((c) => [c.limitMinutes, c.minutes, c.verdict]).sort()).toEqual([
      [60, 46, 'inside'],
      [90, 91, 'outside'],
    ])
  })

  test('[limit] a limit waived, by somebody who may, is as far inside or outside as it was', () => {
    const day = [ticket(), stamp('discharge.ended', '09:03')]
    const waived = entry('limit.waived', { load: FIRST, who: { called: 'Curt' } })
    expect(limitOf([...day, waived])).toEqual(limitOf(day))
    expect(limitOf(day)).toMatchObject({ verdict: 'outside', checks: [{ minutes: 118 }] })
  })
})
