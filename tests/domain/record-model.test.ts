import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { NO_MEMBERS } from '../../api/domain/access/members.ts'
import { makeEntry } from '../../api/domain/entry/make.ts'
import { readEntry } from '../../api/domain/entry/read.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { jobModel } from '../../api/domain/record/job-model.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { sha256 } from '../../api/server/senses.ts'
import { type GoodLog, makeGoodLog } from '../damage/good-log.ts'
import { recordBytes } from '../damage/make-good.ts'
import { textOf, unpack } from '../damage/record-kit.ts'
import { chanceOf } from '../damage/scripted-log.ts'

let good: GoodLog
let model: RecordModel
let entries: LoggedEntry[]
beforeAll(async () => {
  good = await makeGoodLog()
  model = JSON.parse(textOf(await unpack(await recordBytes(good)), 'record.json')) as RecordModel
  entries = good.log.leaves.flatMap(({ job, bytes, receivedAt }) => {
    const read = job === good.job && bytes ? readEntry(bytes, sha256) : undefined
    return read?.ok ? [{ ...read.value, receivedAt }] : []
  })
})

const plain = (value: unknown): boolean => {
  if (Array.isArray(value)) return value.every(plain)
  if (typeof value === 'object' && value !== null) return Object.values(value).every(plain)
  return typeof value === 'string' || Number.isSafeInteger(value)
}

describe('the model of a record', () => {
  test('[record] holds strings and integers only, so that its canonical text has one reading', () => {
    expect(plain(model)).toBe(true)
    expect(JSON.parse(canonicalJson(model))).toEqual(model)
  })

  test('[L7] is the same in whatever order, and how often, the entries arrived', () => {
    const members = NO_MEMBERS
    const straight = canonicalJson(jobModel({ job: good.job, entries, members }))
    fc.assert(
      fc.property(
        fc.shuffledSubarray(entries, { minLength: entries.length }),
        fc.subarray(entries),
        (shuffled, again) => {
          expect(canonicalJson(jobModel({ job: good.job, entries: [...shuffled, ...again], members }))).toBe(
            straight,
          )
        },
      ),
      { seed: 7, numRuns: 50 },
    )
  })

  test('[record] gives minutes, verdict and water of each load', () => {
    const [first, second] = model.job.loads
    expect(first).toMatchObject({
      batchToStart: { is: 'given', minutes: [36] },
      batchToEnd: { is: 'given', minutes: [63] },
      onSite: { is: 'given', minutes: [41] },
      limit: { verdict: 'inside', checks: [{ minutes: 63, limitMinutes: 90, to: 'discharge-ended' }] },
      water: { sum: { is: 'none' } },
      missing: [],
    })
    expect(second).toMatchObject({
      batchToEnd: { is: 'given', minutes: [118, 119] },
      onSite: { is: 'not-recorded' },
      limit: { verdict: 'limit-not-stated' },
      water: { sum: { is: 'given', gallons: '20' } },
    })
    expect(second?.oddities).toContain('several-answers')
  })

  test('[record] shows what was corrected and what was taken back, with the first values', () => {
    const at = (name: string) => model.job.history.find((entry) => entry.entry === good.named.get(name))
    expect([at('slump 5')?.stands, at('slump 4 1/4')?.stands, at('remark')?.stands]).toEqual([
      'corrected',
      'stands',
      'withdrawn',
    ])
    expect(model.job.changes.map((change) => change.is)).toEqual(['correction', 'withdrawal'])
    expect(at('slump 5')).toMatchObject({ kind: 'slump.measured', body: { slump: { text: '5' } } })
  })

  test('[record] tells late from on time, with the delay either way', () => {
    const at = (name: string) => model.job.history.find((entry) => entry.entry === good.named.get(name))
    expect(at('water 8')).toMatchObject({ late: 'yes', delayMinutes: 35 })
    expect(at('water 12')).toMatchObject({ late: 'no', delayMinutes: 0, receiptMinutes: 60 })
  })

  test('[record] sets a device’s clock against the time of receipt where this record knows it', () => {
    const head = (device: string) => model.devices.find((d) => d.device === device)?.heads[0]
    expect(head(good.devices.second.id)?.aheadSeconds).toBe(-2)
    // The last entry under this head is of another job.
    expect(head(good.devices.phone.id)?.aheadSeconds).toBeUndefined()
  })

  test('[record] a batching time that the ticket does not print is not stated, and no ticket is not recorded', () => {
    const load = '019db004-d540-7531-b486-000000000001'
    const make = (kind: 'ticket.recorded' | 'discharge.started', body: object) => {
      const bytes = makeEntry(
        { job: good.job, kind, body: body as never, occurredAt: '2026-04-21T07:33:00-05:00', source: 'tap' },
        { device: load, by: { known: 'own-device', person: load }, boot: load },
        { now: 1, recordedAt: '2026-04-21T07:33:09-05:00', mono: 1 },
        chanceOf(kind),
      )
      const read = readEntry(bytes, sha256)
      if (!read.ok) throw new Error(read.problem.code)
      return read.value
    }
    const ticket = make('ticket.recorded', {
      load,
      number: { is: 'not-stated' },
      truck: { is: 'not-stated' },
      yards: { is: 'not-stated' },
      batchedAt: { is: 'not-stated' },
      limit: { is: 'not-stated' },
    })
    const started = make('discharge.started', { load })
    const spanOf = (all: LoggedEntry[]) =>
      jobModel({ job: good.job, entries: all, members: NO_MEMBERS }).loads[0]?.batchToStart
    expect(spanOf([ticket, started])).toEqual({ is: 'not-stated' })
    expect(spanOf([started])).toEqual({ is: 'not-recorded' })
  })
})
