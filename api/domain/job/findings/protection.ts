import { protectionDays } from '../../trade/cold.ts'
import { compareTo } from '../../trade/finding.ts'
import { measure, toUnit } from '../../trade/measure.ts'
import { ratio } from '../../units.ts'
import type { JobView } from '../view.ts'
import { wasCold } from './cold-weather.ts'
import { type JobEditions, named } from './editions.ts'
import { type JobFinding, jobFinding, limitOf, type Missing, shown } from './finding.ts'
import { firstConcrete, instant, isAbout, loadsTaken, partsOf, plannedParts } from './where.ts'

/**
 * Where it was cold weather by a definition that was asked: the hours that each part lay under blankets or sheets, as far
 * as putting on and taking off were logged, beside the days that the chosen row protects against freezing.
 * Source: as `protectionDays`; that covers are what protects is our choice, and said beside each figure.
 */
export const protectionFindings = (
  job: JobView,
  editions: JobEditions,
  coldWeather: readonly JobFinding[],
): JobFinding[] => {
  const from = firstConcrete(loadsTaken(job))
  if (from === undefined || wasCold(coldWeather) !== true) return []
  const filled = new Set(loadsTaken(job).flatMap((load) => [...(partsOf(load) ?? [])]))
  const planned = [...new Set(plannedParts(job).map(({ part }) => part))]
  const parts = planned.filter((part) => filled.size === 0 || filled.has(part))
  const why = coldWeather.flatMap(({ entries }) => entries)
  return parts.flatMap((part) =>
    editions.service.flatMap((service) =>
      editions.cement.map((cement) => {
        const { againstFreezing, source } = protectionDays(service.edition, cement.edition)
        const limit = { least: toUnit(againstFreezing, 'h'), source } as const
        const { ms, missing, hashes } = coverOf(job, part, from)
        const value = ms === undefined ? undefined : measure(ratio(BigInt(ms), 3_600_000n), 'h')
        return jobFinding({
          of: 'hours-covered',
          parts: [part],
          value: shown(value),
          ...limitOf(limit),
          editions: [named('service', service), named('cement', cement)],
          verdict: compareTo('hours-covered', value, limit).verdict,
          missing,
          notes: ['covers-alone'],
          entries: [...hashes, ...service.chosenIn, ...cement.chosenIn, ...why],
        })
      }),
    ),
  )
}

type Cover = {
  readonly ms: number | undefined
  readonly missing: readonly Missing[]
  readonly hashes: readonly string[]
}

/** The time under any cover; of one that is not said to have come off, nothing is known. Wet cloth keeps no cold out. */
const coverOf = (job: JobView, part: string, from: number): Cover => {
  const changes = job.covers
    .filter(
      ({ at, value }) =>
        value.what !== 'wet-cloth' && instant(at) >= from && isAbout(new Set([part]), value.parts),
    )
    .sort((a, b) => instant(a.at) - instant(b.at))
  const hashes = changes.map(({ hash }) => hash)
  if (!changes.some(({ value }) => value.change === 'on'))
    return { ms: undefined, missing: ['cover'], hashes }
  let ms = 0
  let since: number | undefined
  const on = new Set<string>()
  for (const { at, value } of changes) {
    if (value.change === 'on') on.add(value.what)
    else on.delete(value.what)
    if (on.size > 0) since ??= instant(at)
    else if (since !== undefined) {
      ms += instant(at) - since
      since = undefined
    }
  }
  return since === undefined ? { ms, missing: [], hashes } : { ms: undefined, missing: ['cover-off'], hashes }
}
