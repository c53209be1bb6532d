import { dayOf, daysLater } from '../../time.ts'
import { protectionDays } from '../../trade/cold.ts'
import { coldWeatherNewer, coldWeatherOlder, type Day } from '../../trade/cold-weather.ts'
import type { Verdict } from '../../trade/finding.ts'
import { compareMeasures, exactly, type Measure, measure, toUnit, whole } from '../../trade/measure.ts'
import { over, ratio, sum, times } from '../../units.ts'
import { nightOf, siteClock } from '../nights.ts'
import type { JobView } from '../view.ts'
import { type AirReading, airReadings } from './air-readings.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import { type JobFinding, jobFinding, limitOf, shown } from './finding.ts'
import { instant, loadsTaken } from './where.ts'

const F40 = exactly('40', 'degF')
const F50 = exactly('50', 'degF')
const DAY_MS = 86_400_000

/**
 * The air against each chosen definition of cold weather. Outside is below its 40 °F: cold weather in that edition's
 * words. Inside only where each night of the protection is told of, since nobody reads every hour.
 * Source: as `coldWeatherNewer` and `coldWeatherOlder`; how many nights have to be told of: the days that the chosen row
 * protects against freezing; our choice.
 */
export const coldWeatherFindings = (job: JobView, editions: JobEditions): JobFinding[] => {
  const starts = loadsTaken(job).flatMap((load) => load.started.map((s) => s.value))
  if (starts.length === 0) return []
  const all = airReadings(job)
  return editions.coldWeather.map((rule) =>
    rule.edition === '306R-10' ? newer(job, all, starts, rule, editions) : older(job, all, rule),
  )
}

/** Whether it was cold weather by any definition that was asked; undefined where that isn't recorded. */
export const wasCold = (findings: readonly { readonly verdict: Verdict }[]): boolean | undefined => {
  if (findings.some(({ verdict }) => verdict === 'outside')) return true
  return findings.length > 0 && findings.every(({ verdict }) => verdict === 'inside') ? false : undefined
}

const newer = (
  job: JobView,
  all: readonly AirReading[],
  starts: readonly string[],
  rule: Used<'coldWeather'>,
  editions: JobEditions,
): JobFinding => {
  const days = protectedDays(editions)
  const onSite = siteClock(job)
  const isProtected = (at: string) =>
    starts.some((start) => instant(at) >= instant(start) && instant(at) < instant(start) + days * DAY_MS)
  const after = all.filter(({ at }) => isProtected(at))
  const lowest = after.reduce<AirReading | undefined>(
    (least, one) => (least && compareMeasures(least.air, one.air) <= 0 ? least : one),
    undefined,
  )
  const base = {
    of: 'cold-weather',
    editions: [named('coldWeather', rule)],
    ...limitOf({ least: F40, source: '306r-10' }),
  } as const
  if (!lowest)
    return jobFinding({
      ...base,
      verdict: 'not-recorded',
      missing: ['night-temperatures'],
      entries: rule.chosenIn,
    })
  const told = new Set(after.flatMap(({ at }) => nightOf(onSite(at)) ?? []))
  const met = coldWeatherNewer(lowest.air)
  const isCold = met.ok && met.value.cold
  const isTold = nightsFrom(starts.map(onSite), days).every((one) => told.has(one))
  return jobFinding({
    ...base,
    at: lowest.at,
    value: shown(toUnit(lowest.air, 'degF')),
    notes: ['lowest-of-readings'],
    verdict: isCold ? 'outside' : isTold && met.ok ? 'inside' : 'not-recorded',
    missing: isCold || isTold ? [] : ['night-temperatures'],
    entries: [lowest.hash, ...rule.chosenIn],
  })
}

/** So many nights from each start on, by their evening’s date. */
const nightsFrom = (starts: readonly string[], days: number): string[] => {
  const first = new Set(starts.map((start) => nightOf(start) ?? dayOf(start)))
  return [...first].flatMap((night) => Array.from({ length: days }, (_, i) => daysLater(night, i)))
}

/** The most that any of the chosen rows asks for. */
const protectedDays = ({ service, cement }: JobEditions): number =>
  Math.max(
    ...service.flatMap((s) =>
      cement.map((c) => {
        const { n, d } = toUnit(protectionDays(s.edition, c.edition).againstFreezing, 'd')
        return Math.ceil(Number(n) / Number(d))
      }),
    ),
  )

/** Days in a row that the older definition needs at the least: more than three. */
const IN_A_ROW = 4

const older = (job: JobView, all: readonly AirReading[], rule: Used<'coldWeather'>): JobFinding => {
  const runs = runsOfDays(job, all).filter(({ days }) => days.length >= IN_A_ROW)
  const verdicts = runs.map(({ days }) => coldWeatherOlder(days))
  const isCold = verdicts.some((one) => one.ok && one.value.cold)
  const base = {
    of: 'cold-weather',
    editions: [named('coldWeather', rule)],
    ...limitOf({ least: F40, source: '306r-88' }),
    notes: ['mean-of-readings'],
  } as const
  if (runs.length === 0 || verdicts.some((one) => !one.ok))
    return jobFinding({
      ...base,
      verdict: 'not-recorded',
      missing: ['daily-temperatures'],
      entries: rule.chosenIn,
    })
  return jobFinding({
    ...base,
    value: shown(coldestRow(runs.map(({ days }) => days))),
    verdict: isCold ? 'outside' : 'inside',
    entries: [...runs.flatMap(({ hashes }) => hashes), ...rule.chosenIn],
  })
}

/** Of each four days in a row the warmest mean; of these the coldest: below the limit, all four were. */
const coldestRow = (runs: readonly (readonly Day[])[]): Measure => {
  const rows = runs.flatMap((days) => days.slice(IN_A_ROW - 1).map((_, i) => days.slice(i, i + IN_A_ROW)))
  const pick = (all: readonly Measure<'degF'>[], warmer: boolean): Measure<'degF'> =>
    all.reduce((a, b) => (compareMeasures(a, b) > 0 === warmer ? a : b))
  const warmest = rows.map((days) =>
    pick(
      days.map(({ mean }) => toUnit(mean, 'degF')),
      true,
    ),
  )
  return pick(warmest, false)
}

type Run = { readonly days: readonly Day[]; readonly hashes: readonly string[] }

/** Days on site that were read in each of their quarters, in rows without a break. Source: our choice. */
const runsOfDays = (job: JobView, all: readonly AirReading[]): Run[] => {
  const onSite = siteClock(job)
  const byDay = new Map<string, AirReading[]>()
  for (const one of all) {
    const at = onSite(one.at)
    byDay.set(dayOf(at), [...(byDay.get(dayOf(at)) ?? []), { ...one, at }])
  }
  const told = [...byDay].filter(([, readings]) => isTold(readings)).sort(([a], [b]) => (a < b ? -1 : 1))
  const runs: { days: Day[]; hashes: string[] }[] = []
  let last: string | undefined
  for (const [day, readings] of told) {
    if (last === undefined || daysLater(last, 1) !== day) runs.push({ days: [], hashes: [] })
    runs.at(-1)!.days.push(dayFrom(readings))
    runs.at(-1)!.hashes.push(...readings.map(({ hash }) => hash))
    last = day
  }
  return runs
}

const isTold = (readings: readonly AirReading[]): boolean =>
  new Set(readings.map(({ at }) => Math.floor(Number(at.slice(11, 13)) / 6))).size === 4

const dayFrom = (readings: readonly AirReading[]): Day => {
  const count = ratio(BigInt(readings.length))
  const warm = readings.filter(({ air }) => compareMeasures(air, F50) > 0).length
  return {
    mean: measure(over(sum(readings.map(({ air }) => toUnit(air, 'degF'))), count), 'degF'),
    above50: measure(times(whole(24, 'h'), over(ratio(BigInt(warm)), count)), 'h'),
  }
}
