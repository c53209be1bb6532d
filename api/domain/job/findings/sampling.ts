import type { Taking } from '../../entry/taking.ts'
import { minutesBetween } from '../../time.ts'
import { compareTo } from '../../trade/finding.ts'
import { whole } from '../../trade/measure.ts'
import { SAMPLING, TEMPERATURE_TEST } from '../../trade/sampling.ts'
import type { JobView, LoadView } from '../view.ts'
import { type FindingOf, type JobFinding, jobFinding, limitOf } from './finding.ts'

type Taken = {
  readonly of: FindingOf
  readonly hash: string
  readonly sampledAt: string
  readonly resultAt: string
}

/**
 * Minutes from a sample to each result. The practice limits when a test begins, and a log has when it gave its result: a
 * result within the window was begun within it; of a later one it isn't recorded. A temperature is read within its own.
 * Source: ASTM C172 and C1064 as summarised (`SAMPLING`, `TEMPERATURE_TEST`).
 */
export const samplingFindings = (job: JobView): JobFinding[] =>
  job.loads.flatMap((load) => takenOf(load).flatMap((one) => ofTaken(load, one)))

const LIMITS = {
  'minutes-to-slump': { most: SAMPLING.testsWithin, source: 'c172' },
  'minutes-to-air': { most: SAMPLING.testsWithin, source: 'c172' },
  'minutes-to-temperature': { most: TEMPERATURE_TEST.readWithin, source: 'c1064' },
  'minutes-to-cylinders': { most: SAMPLING.moldingWithin, source: 'c172' },
} as const

const ofTaken = (load: LoadView, { of, hash, sampledAt, resultAt }: Taken): JobFinding[] => {
  const minutes = minutesBetween(sampledAt, resultAt)
  // A result before its sample is an oddity of the log, and says nothing of a window.
  if (minutes === undefined || minutes < 0) return []
  const limit = LIMITS[of as keyof typeof LIMITS]
  const { verdict } = compareTo(of, whole(minutes, 'min'), limit)
  const isBegun = of !== 'minutes-to-temperature'
  return [
    jobFinding({
      of,
      load: load.id,
      at: resultAt,
      value: { text: String(minutes), unit: 'min' },
      ...limitOf(limit),
      verdict: isBegun && verdict === 'outside' ? 'not-recorded' : verdict,
      notes: isBegun ? ['result-time'] : [],
      entries: [hash],
    }),
  ]
}

const takenOf = (load: LoadView): Taken[] => {
  const of = (name: FindingOf, hash: string, taking: Taking | undefined, at: string): Taken[] =>
    taking?.sampledAt === undefined
      ? []
      : [{ of: name, hash, sampledAt: taking.sampledAt, resultAt: taking.resultAt ?? at }]
  return [
    ...load.slump.flatMap(({ hash, at, value: { slump, how, taking } }) =>
      slump.is === 'given' && how === 'cone' ? of('minutes-to-slump', hash, taking, at) : [],
    ),
    ...load.air.flatMap(({ hash, at, value: { air, taking } }) =>
      air.is === 'given' ? of('minutes-to-air', hash, taking, at) : [],
    ),
    ...load.temperatures.flatMap(({ hash, at, value: { of: what, temperature, taking } }) =>
      what === 'concrete' && temperature.is === 'given' ? of('minutes-to-temperature', hash, taking, at) : [],
    ),
    ...load.cylinders.flatMap(({ hash, at, value: { number, doneAt, taking } }) =>
      number.is === 'given' ? of('minutes-to-cylinders', hash, taking, doneAt ?? at) : [],
    ),
  ]
}
