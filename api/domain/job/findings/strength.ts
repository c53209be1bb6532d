import { compareMeasures, exactly, type Measure, type Pressure, toUnit } from '../../trade/measure.ts'
import {
  CYLINDERS_A_TEST,
  type CylinderSize,
  strengthAcceptance,
  strengthTest,
} from '../../trade/strength.ts'
import type { JobView, LoadView } from '../view.ts'
import { entered, type JobFinding, jobFinding, limitOf, shown } from './finding.ts'

type Test = {
  readonly load: LoadView
  readonly hash: string
  readonly at: string
  readonly breaks: readonly Pressure[]
  readonly mean: Measure<'psi'>
  /** Enough cylinders to be a test; undefined where their size isn't recorded and it hangs on that. */
  readonly isTest: boolean | undefined
  readonly made: readonly string[]
}
type Specified = { readonly strength: Pressure; readonly hash: string }

/**
 * Breaks at 28 days against both criteria of acceptance: each test against its own least, and the mean of each three
 * tests in a row against the strength that was ordered, or that the ticket prints. A job has seldom three tests: that too
 * is said. Source: as `strengthTest` and `strengthAcceptance`.
 */
export const strengthFindings = (job: JobView): JobFinding[] => {
  const tests = job.loads.flatMap(testsOf)
  if (tests.length === 0) return []
  const specified = specifiedIn(job)
  if (specified.length === 0)
    return tests.map((test) =>
      jobFinding({
        ...single(test),
        verdict: 'limit-not-stated',
        missing: ['strength-ordered'],
        entries: [test.hash],
      }),
    )
  return specified.flatMap((one) => [...tests.flatMap((test) => ofTest(test, one)), ...ofMeans(tests, one)])
}

const single = ({ load, at, mean }: Test) =>
  ({ of: 'strength-test', load: load.id, at, value: shown(mean) }) as const

const ofTest = (test: Test, { strength, hash }: Specified): JobFinding[] => {
  const found = strengthAcceptance({ specified: strength, tests: [test.mean] })
  const limit = found.ok ? found.value.singles[0] : undefined
  const base = {
    ...single(test),
    ...limitOf(limit?.limit),
    entries: [test.hash, hash, ...test.made],
  }
  if (!limit) return [jobFinding({ ...base, verdict: 'not-recorded', notes: ['out-of-range'] })]
  if (test.isTest) return [jobFinding({ ...base, verdict: limit.verdict })]
  return [
    jobFinding({
      ...base,
      verdict: 'not-recorded',
      missing: test.isTest === undefined ? ['cylinder-size'] : [],
      notes: test.isTest === undefined ? [] : ['too-few-cylinders'],
    }),
  ]
}

const ofMeans = (all: readonly Test[], { strength, hash }: Specified): JobFinding[] => {
  const tests = all.filter(({ isTest }) => isTest)
  const limit = { least: toUnit(strength, 'psi'), source: 'aci-318-accept' } as const
  const base = { of: 'strength-mean-of-three', ...limitOf(limit) } as const
  if (tests.length < 3)
    return [
      jobFinding({
        ...base,
        verdict: 'not-recorded',
        missing: ['three-tests'],
        notes: ['too-few-tests'],
        entries: [...tests.map((test) => test.hash), hash],
      }),
    ]
  const found = strengthAcceptance({ specified: strength, tests: tests.map(({ mean }) => mean) })
  if (!found.ok)
    return [jobFinding({ ...base, verdict: 'not-recorded', notes: ['out-of-range'], entries: [hash] })]
  return found.value.runningMeans.map((mean, i) => {
    const three = tests.slice(i, i + 3)
    const one = strengthAcceptance({ specified: strength, tests: three.map((test) => test.mean) })
    return jobFinding({
      ...base,
      at: three[2]!.at,
      value: shown(mean),
      verdict: one.ok ? one.value.criterionA : 'not-recorded',
      entries: [...three.map((test) => test.hash), hash],
    })
  })
}

type Asked = { readonly hash: string; readonly value: Pick<JobView['mix'][number]['value'], 'strength'> }

/** What the order asks for, else what tickets print; several that differ are each compared. */
const specifiedIn = ({ mix, loads }: JobView): Specified[] => {
  const of = (all: readonly Asked[]) =>
    all.flatMap(({ hash, value }): Specified[] => {
      const strength = value.strength?.is === 'given' ? entered(value.strength) : undefined
      return strength ? [{ strength, hash }] : []
    })
  const ordered = of(mix)
  const all = ordered.length > 0 ? ordered : of(loads.flatMap(({ ticket }) => ticket))
  return all.filter(
    (one, i) => all.findIndex((other) => compareMeasures(other.strength, one.strength) === 0) === i,
  )
}

/** The age at which strength is accepted. Source: ACI 318-19 §26.12.3.1, 28 days unless another was specified. */
const ACCEPTED_AT = '28'

const testsOf = (load: LoadView): Test[] =>
  load.strength
    .filter(({ value }) => value.days === ACCEPTED_AT)
    .flatMap(({ hash, at, value }) => {
      const breaks = value.breaks.flatMap((one) => entered(one) ?? [])
      const sizes = new Set(load.cylinders.flatMap(({ value: { size } }) => (size ? [size] : [])))
      const test = testOf(breaks, [...sizes])
      if (!test) return []
      const made = load.cylinders.filter((one) => one.value.size).map((one) => one.hash)
      return [{ load, hash, at, breaks, ...test, made }]
    })

const testOf = (
  breaks: readonly Pressure[],
  sizes: readonly CylinderSize[],
): Pick<Test, 'mean' | 'isTest'> | undefined => {
  const possible = sizes.length > 0 ? sizes : (Object.keys(CYLINDERS_A_TEST) as CylinderSize[])
  const all = possible.map((size) =>
    strengthTest({ cylinders: breaks, size, age: exactly(ACCEPTED_AT, 'd') }),
  )
  const first = all[0]
  if (!first?.ok) return undefined
  const verdicts = new Set(all.map((one) => one.ok && one.value.forAcceptance))
  return { mean: first.value.mean, isTest: verdicts.size === 1 ? [...verdicts][0] : undefined }
}
