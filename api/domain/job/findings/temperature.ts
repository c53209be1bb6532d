import { placingFinding } from '../../trade/cold.ts'
import { HOT_LIMITS, hotFinding } from '../../trade/hot.ts'
import { type Temperature, toUnit } from '../../trade/measure.ts'
import type { JobView, LoadView } from '../view.ts'
import { wasCold } from './cold-weather.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import { entered, type JobFinding, jobFinding, limitOf, type Note, shown } from './finding.ts'
import { loadsTaken, partsOf, thinnest } from './where.ts'

type Reading = { readonly hash: string; readonly at: string; readonly concrete: Temperature }

/**
 * Each concrete temperature of a load against the chosen hot-weather limit, and, unless it is recorded that it was not
 * cold weather, against the chosen placing temperatures: compared where it was cold, and only set beside them where that
 * isn't recorded. Source: as `hotFinding` and `placingFinding`.
 */
export const temperatureFindings = (
  job: JobView,
  editions: JobEditions,
  coldWeather: readonly JobFinding[],
): JobFinding[] => {
  const cold = wasCold(coldWeather)
  const why = coldWeather.flatMap(({ entries }) => entries)
  return loadsTaken(job).flatMap((load) =>
    readings(load).flatMap((one) => [
      ...(cold === false
        ? []
        : editions.placing.map((rule) => placing(job, load, one, rule, cold === true, why))),
      ...editions.hot.map((rule) => hot(load, one, rule)),
    ]),
  )
}

const placing = (
  job: JobView,
  load: LoadView,
  { hash, at, concrete }: Reading,
  rule: Used<'placing'>,
  isCold: boolean,
  why: readonly string[],
): JobFinding => {
  const parts = partsOf(load)
  const section = thinnest(job, parts)
  const notes: Note[] = [
    ...(parts === undefined && section ? (['all-parts'] as const) : []),
    ...(isCold ? [] : (['cold-weather-not-known'] as const)),
  ]
  const base = {
    of: 'placing-temperature',
    load: load.id,
    at,
    value: shown(toUnit(concrete, 'degF')),
    editions: [named('placing', rule)],
    entries: [
      hash,
      ...(section ? [section.hash] : []),
      ...(parts ? load.placed.map((placed) => placed.hash) : []),
      ...rule.chosenIn,
      ...why,
    ],
  } as const
  if (!section) return jobFinding({ ...base, verdict: 'limit-not-stated', missing: ['thickness'], notes })
  const found = placingFinding({ section: section.thickness, concrete, rule: rule.edition })
  if (!found.ok) return jobFinding({ ...base, verdict: 'not-recorded', notes: [...notes, 'out-of-range'] })
  return jobFinding({
    ...base,
    ...limitOf(found.value.limit),
    verdict: isCold ? found.value.verdict : 'not-recorded',
    missing: isCold ? [] : ['night-temperatures'],
    notes,
  })
}

const hot = (load: LoadView, { hash, at, concrete }: Reading, rule: Used<'hot'>): JobFinding => {
  const found = hotFinding({ concrete, rule: rule.edition })
  const isRead = found.ok
  return jobFinding({
    of: 'hot-temperature',
    load: load.id,
    at,
    value: shown(toUnit(concrete, 'degF')),
    ...limitOf(HOT_LIMITS[rule.edition]),
    editions: [named('hot', rule)],
    verdict: isRead ? found.value.verdict : 'not-recorded',
    notes: isRead ? [] : ['out-of-range'],
    entries: [hash, ...rule.chosenIn],
  })
}

const readings = (load: LoadView): Reading[] =>
  load.temperatures.flatMap(({ hash, at, value: { of, temperature } }) => {
    const concrete = of === 'concrete' && temperature.is === 'given' ? entered(temperature) : undefined
    return concrete ? [{ hash, at, concrete }] : []
  })
