import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../api/domain/job/figures.ts'
import { foldJob } from '../../api/domain/job/fold.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { ANY_JOB, type AnyJob, anyJob, entriesOf } from '../kit/any-job.ts'
import { isFunctionOfSet, isShown } from '../kit/fold-laws.ts'

/** Half a minute each on an idle machine. */
const TIMEOUT_MS = 600_000

describe('[L7] any job whatever, of all kinds of entry', { timeout: TIMEOUT_MS }, () => {
  test('[L7] view, figures and model are a function of the set of its entries', () => {
    const seen = new Set<string>()
    const law = (job: AnyJob): void => {
      const entries = entriesOf(job)
      isFunctionOfSet(job, entries)
      for (const one of reached(entries)) seen.add(one)
    }
    fc.assert(fc.property(anyJob, law), { numRuns: 5_000, seed: 71340 })
    // The law is about something: the jobs drawn reach all that a figure can come to.
    expect(REACHED.filter((one) => !seen.has(one))).toEqual([])
  })

  test('[record] figures are numbers, and model, pages in both languages and tables are made of it', () => {
    fc.assert(fc.property(anyJob, isShown), { numRuns: 1_500, seed: 71352 })
  })
})

const REACHED = [
  'limit inside',
  'limit outside',
  'limit limit-not-stated',
  'limit not-recorded',
  'allowance inside',
  'allowance outside',
  'allowance not-recorded',
  'last part',
  'last part by the times',
  'ratio batched',
  'ratio first',
  'ratio last',
  'ratio whole',
  'edge',
  'placed',
  'over formed',
  'sent back',
  'joined',
  'withdrawal withdrawn',
  'odd times-backwards',
  'odd time-ahead',
  'odd water-none-and-some',
  'odd water-said-twice',
  'odd water-stage-against-times',
  'odd yards-do-not-fit',
  'odd rejected-and-taken',
  'odd several-answers',
  'odd order-said-twice',
  'odd part-planned-twice',
]

const reached = (entries: readonly LoggedEntry[]): string[] => {
  const view = foldJob(ANY_JOB, entries)
  const figures = jobFigures(view)
  const waters = figures.loads.flatMap((load) => load.ticketWaters)
  const allowances = waters.flatMap(({ allowance }) => (allowance.is === 'given' ? [allowance] : []))
  const lastParts = allowances.flatMap(({ lastPart }) => lastPart ?? [])
  const when = (is: boolean, name: string): string[] => (is ? [name] : [])
  return [
    ...figures.loads.map((load) => `limit ${load.limit.verdict}`),
    ...allowances.map(({ verdict }) => `allowance ${verdict}`),
    ...waters.flatMap(({ ratios }) => ratios.map(({ part }) => `ratio ${part}`)),
    ...when(lastParts.length > 0, 'last part'),
    ...when(
      lastParts.some(({ byTimes }) => byTimes),
      'last part by the times',
    ),
    ...when(figures.edgeGaps.length > 0, 'edge'),
    ...when(
      figures.loads.some(({ placed }) => placed !== undefined && placed.n > 0n),
      'placed',
    ),
    ...when(figures.overFormed !== undefined, 'over formed'),
    ...when(figures.sentBackYards.n > 0n, 'sent back'),
    ...when(
      view.loads.some(({ joined }) => joined.length > 0),
      'joined',
    ),
    ...when(
      view.history.some(({ kind, inForce }) => kind === 'entry.withdrawn' && !inForce),
      'withdrawal withdrawn',
    ),
    ...[...figures.loads, figures].flatMap(({ oddities }) => oddities.map((odd) => `odd ${odd}`)),
  ]
}
