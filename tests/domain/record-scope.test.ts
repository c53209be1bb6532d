import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fieldFacts } from '../../api/domain/entry/fields.ts'
import { type HashedEntry, isUnread } from '../../api/domain/entry/read.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import {
  PERSONAL_KINDS,
  type RecordRequest,
  readRequest,
  statedRequest,
} from '../../api/domain/record/request.ts'
import { leftOut } from '../../api/domain/record/scope.ts'
import { en } from '../../api/domain/words/en.ts'
import { recordEn } from '../../api/domain/words/record-en.ts'
import { ANY_JOB, anyJob, entriesOf } from '../kit/any-job.ts'
import { recordOf } from '../kit/fold-laws.ts'
import { entry, FIRST, JOB, SECOND } from './job/pour.ts'
import { at, gal, modelWith, opened, PATIO, planned, yd3 } from './record-kit.ts'

const kinds = Object.keys(KINDS).filter((kind) => KINDS[kind as Kind].thread === 'job') as Kind[]
const known = (job: readonly unknown[]) => job as readonly HashedEntry[]

const arrived = entry('load.arrived', { load: FIRST }, { at: at('07:33') })
const water = entry('water.added', { load: FIRST, amount: gal('12') }, { at: at('07:40') })
const more = entry(
  'water.added',
  { load: FIRST, amount: gal('15') },
  { at: at('07:41'), corrects: [water.hash] },
)
const nextDay = '2026-04-22T08:00-05:00'
const second = entry('load.arrived', { load: SECOND }, { at: nextDay })
const went = entry(
  'load.placed',
  { load: SECOND, places: [{ part: PATIO }], how: 'measured' },
  { at: nextDay },
)
const remark = entry('remark.made', { remark: { lang: 'en', text: 'Cold.' } }, { at: nextDay })
const ordered = entry('concrete.ordered', { yards: yd3('16') }, { at: '2026-04-17T08:05-05:00' })
const named = entry('customer.named', { name: 'Nora' }, { at: '2026-04-17T08:05-05:00' })
const ALL = [opened, planned, ordered, named, arrived, water, more, second, went, remark]

const given = (request: Partial<RecordRequest>): string[] => {
  const out = leftOut(JOB, known(ALL), { withhold: [], ...request })
  if (!out.ok) throw new Error(out.problem.code)
  return ALL.filter(({ hash }) => !out.value.has(hash)).map(({ hash }) => hash)
}

describe('a record of a part', () => {
  test('[scope] of a load holds that load, the order and what is of no load, and nothing of the other', () => {
    expect(given({ load: FIRST })).toEqual(
      [opened, planned, ordered, named, arrived, water, more, remark].map(({ hash }) => hash),
    )
  })

  test('[scope] of days holds each load whole of which anything fell on them, and what was ordered before', () => {
    expect(given({ from: '2026-04-22', to: '2026-04-22' })).toEqual(
      [opened, planned, ordered, second, went, remark].map(({ hash }) => hash),
    )
  })

  test('[scope] of a placement that the job does not have, or a load, or of nothing at all, is refused', () => {
    const codeOf = (request: Partial<RecordRequest>) => {
      const out = leftOut(JOB, known(ALL), { withhold: [], ...request })
      return out.ok ? 'ok' : out.problem.code
    }
    expect(codeOf({ placement: FIRST })).toBe('scope-placement')
    expect(codeOf({ load: PATIO })).toBe('scope-load')
  })

  test('[scope] withholds what is personal by its fields’ own marks', () => {
    const personal = kinds.filter((kind) => {
      const shape = KINDS[kind].today as unknown as { shape?: Record<string, never> }
      const facts = (schema: unknown): boolean => {
        if (typeof schema !== 'object' || schema === null) return false
        if (fieldFacts.get(schema as never)?.personal) return true
        const inner = (schema as { def?: { innerType?: unknown; element?: unknown } }).def
        return facts(inner?.innerType) || facts(inner?.element)
      }
      return Object.values(shape.shape ?? {}).some(facts)
    })
    expect([...PERSONAL_KINDS].sort()).toEqual(personal.sort())
    expect(given({ withhold: ['personal'] })).not.toContain(named.hash)
  })

  const anyRequest: fc.Arbitrary<RecordRequest> = fc.record(
    {
      from: fc.constantFrom('2026-04-20', '2026-04-21'),
      to: fc.constantFrom('2026-04-21', '2026-11-30'),
      withhold: fc
        .uniqueArray(
          fc.constantFrom<Kind>(
            'water.added',
            'remark.made',
            'slump.measured',
            'ticket.recorded',
            'photo.taken',
          ),
          { maxLength: 3 },
        )
        .map((all) => [...all].sort()),
    },
    { requiredKeys: ['withhold'] },
  )

  test('[scope] never shows an entry without its corrections, half a load, or some of a withheld kind', () => {
    fc.assert(
      fc.property(anyJob, anyRequest, (job, request) => {
        const entries = entriesOf(job).filter((one): one is HashedEntry & typeof one => !isUnread(one))
        const out = leftOut(ANY_JOB, entries, request)
        if (!out.ok) return
        const withheld = new Set<string>(request.withhold)
        const shown = entries.filter(({ hash }) => !out.value.has(hash))
        const isShown = new Set(shown.map(({ hash }) => hash))
        for (const { entry: one, hash } of entries) {
          if (withheld.has(one.kind)) expect(isShown.has(hash)).toBe(false)
          else
            for (const target of one.corrects ?? [])
              if (isShown.has(target)) expect(isShown.has(hash)).toBe(true)
        }
      }),
      { seed: 6, numRuns: 200 },
    )
  })

  test('[scope] never says that something was not recorded, not stated or not logged', () => {
    const denials = [
      recordEn.recNotRecorded,
      recordEn.recNoLimit,
      recordEn.recNoWaiver,
      recordEn.recNoWeather,
      recordEn.recNoRemarks,
      recordEn.recNoFinish,
    ]
    const model = modelWith([opened, arrived, water])
    const part = {
      ...model,
      thread: model.thread.map((slot, i) => (i === 2 ? { ...slot, is: 'withheld' as const } : slot)),
    }
    const without = (lines: readonly string[]) =>
      lines.filter(
        (line) => !line.startsWith('“None”') && !line.startsWith('What was') && !line.includes('means'),
      )
    const lines = without(pageLines(pageOf(part)))
    for (const denial of denials) expect(lines.filter((line) => line === denial)).toEqual([])
    expect(lines).toContain(recordEn.recNotHere)
    expect(pageLines(pageOf(model))).toContain(recordEn.recNotRecorded)
  })

  test('[scope] tells on each sheet’s foot, and by place on the first, what is not in it', () => {
    fc.assert(
      fc.property(anyJob, (job) => {
        const model = recordOf(entriesOf(job))
        const missing = model.thread.filter(({ is }) => is === 'withheld').map(({ count }) => count)
        const page = pageOf(model)
        expect(page.footer.includes(`${missing.length} entries not in this record`)).toBe(missing.length > 0)
        const said = pageLines(page).find((line) => line.startsWith(`${missing.length} entries: `)) ?? ''
        if (missing.length > 0) expect(said).not.toBe('')
      }),
      { seed: 6, numRuns: 40 },
    )
  })
})

describe('a request', () => {
  test('[scope] is read back from record.json as it was made', () => {
    const made = readRequest({
      load: FIRST,
      from: '2026-04-21',
      withhold: ['water.added', 'personal', 'personal'],
    })
    if (!made.ok) throw new Error(made.problem.code)
    expect(made.value.withhold).toEqual(['personal', 'water.added'])
    expect(statedRequest(JSON.parse(JSON.stringify(made.value)))).toEqual(made.value)
    for (const strange of [
      null,
      {},
      { withhold: 'all' },
      { withhold: ['no.kind'] },
      { withhold: [], more: 1 },
    ])
      expect(statedRequest(strange)).toBeUndefined()
  })

  test.each([
    [{ load: 'two' }, 'request-id'],
    [{ from: '21 April' }, 'request-day'],
    [{ from: '2026-04-22', to: '2026-04-21' }, 'request-day'],
    [{ withhold: ['company.founded'] }, 'request-kind'],
    [{ withhold: ['entry.withdrawn'] }, 'request-kind-needed'],
    [{ withhold: ['loads.joined'] }, 'request-kind-needed'],
  ])('[scope] of %j is refused as %s', (asked, code) => {
    const read = readRequest(asked)
    expect(read.ok ? 'ok' : read.problem.code).toBe(code)
  })
})

test('[words] of the screens are not those of the record', () => {
  expect(Object.keys(recordEn).filter((key) => key in en)).toEqual([])
})
