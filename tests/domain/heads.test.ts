import { expect, test } from 'vitest'
import { type HeadModel, withoutWait } from '../../api/domain/record/heads.ts'

const LAST = 'ab'.repeat(32)
const head: HeadModel = {
  device: 'phone',
  epoch: 1,
  size: 4,
  seen: 9,
  clock: { at: '2026-04-21T09:38-05:00', boot: 'boot', mono: 0 },
  lastReceivedAt: '2026-05-02T14:00:00.000Z',
  lastEntry: LAST,
  aheadSeconds: -948_000,
}

test('[clocks] what waited for an owner’s decision says nothing of a clock', () => {
  expect(withoutWait(head, (entry) => entry === LAST)).toMatchObject({ waited: 'yes' })
  expect(withoutWait(head, (entry) => entry === LAST)).not.toHaveProperty('aheadSeconds')
})

test('[clocks] any other head keeps what its receipt tells', () => {
  expect(withoutWait(head, () => false)).toBe(head)
  const { lastEntry: _, ...unknown } = head
  expect(withoutWait(unknown, () => true)).toBe(unknown)
})
