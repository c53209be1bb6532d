import { compareTo } from '../../trade/finding.ts'
import { type JointTool, jointDepth, jointSpacing } from '../../trade/joints.ts'
import { type Length, type Measure, measure, toUnit } from '../../trade/measure.ts'
import { sawWindow } from '../../trade/saw-hours.ts'
import { ratio } from '../../units.ts'
import type { JobView } from '../view.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import { entered, type JobFinding, jobFinding, limitOf, shown } from './finding.ts'
import { instant, isAbout, type PlannedPart, plannedParts } from './where.ts'

type Saw = JobView['saws'][number]

/**
 * Joints as they were sawn: how far apart and how deep against the thickness of each part, and how long after its
 * finishing, beside the chosen band of hours. Which saw it was no entry says, so that the band of each is looked at.
 * Source: as `jointSpacing`, `jointDepth` and `sawWindow`.
 */
export const jointFindings = (job: JobView, editions: JobEditions): JobFinding[] =>
  job.saws.flatMap((saw) => {
    const about = saw.value.parts && new Set(saw.value.parts)
    const parts = plannedParts(job).filter(({ part }) => about === undefined || about.has(part))
    return [
      ...spacings(saw, parts, editions),
      ...depths(saw, parts),
      ...(saw.value.phase === 'start' ? editions.saw.map((rule) => hours(job, saw, rule)) : []),
    ]
  })

const spacings = (saw: Saw, parts: readonly PlannedPart[], { spacingCap }: JobEditions): JobFinding[] => {
  const spacing = entered(saw.value.spacing)
  return spacing
    ? perPart('joint-spacing', saw, toUnit(spacing, 'ft'), parts, (thickness) =>
        spacingCap.map((cap) => {
          const found = jointSpacing({ thickness, cap: cap.edition })
          return {
            limit: found.ok ? { most: found.value.mostUnderCap, source: found.value.source } : undefined,
            cap,
          }
        }),
      )
    : []
}

const depths = (saw: Saw, parts: readonly PlannedPart[]): JobFinding[] => {
  const depth = entered(saw.value.depth)
  return depth
    ? perPart('joint-depth', saw, toUnit(depth, 'in'), parts, (thickness) => {
        const found = jointDepth({ thickness })
        return [{ limit: found.ok ? found.value : undefined }]
      })
    : []
}

type Found<U extends 'ft' | 'in'> = {
  readonly limit: Parameters<typeof compareTo<U>>[2]
  readonly cap?: Used<'spacingCap'>
}

const perPart = <U extends 'ft' | 'in'>(
  of: 'joint-spacing' | 'joint-depth',
  saw: Saw,
  value: Measure<U>,
  parts: readonly PlannedPart[],
  found: (thickness: Length) => readonly Found<U>[],
): JobFinding[] => {
  const base = { of, at: saw.at, value: shown(value) } as const
  if (parts.length === 0)
    return [
      jobFinding({
        ...base,
        parts: saw.value.parts,
        verdict: 'limit-not-stated',
        missing: ['thickness'],
        entries: [saw.hash],
      }),
    ]
  return parts.flatMap(({ part, thickness, hash }) =>
    found(thickness).map(({ limit, cap }) =>
      jobFinding({
        ...base,
        parts: [part],
        ...limitOf(limit),
        editions: cap ? [named('spacingCap', cap)] : [],
        verdict: compareTo(of, value, limit).verdict,
        notes: limit ? [] : ['out-of-range'],
        entries: [saw.hash, hash, ...(cap?.chosenIn ?? [])],
      }),
    ),
  )
}

const TOOLS: readonly JointTool[] = ['conventional', 'early-entry']

const hours = (job: JobView, saw: Saw, rule: Used<'saw'>): JobFinding => {
  const parts = saw.value.parts && new Set(saw.value.parts)
  const finished = job.finish
    .filter(
      ({ at, value }) =>
        value.phase !== 'start' &&
        value.step !== 'bleed-water-gone' &&
        instant(at) <= instant(saw.at) &&
        isAbout(parts, value.parts),
    )
    .reduce<JobView['finish'][number] | undefined>(
      (a, b) => (a && instant(a.at) > instant(b.at) ? a : b),
      undefined,
    )
  const bands = TOOLS.flatMap((tool) => {
    const band = sawWindow({ tool, rule: rule.edition })
    return band.ok ? [{ least: band.value.from, most: band.value.to, source: band.value.source }] : []
  })
  const base = {
    of: 'saw-hours',
    at: saw.at,
    parts: saw.value.parts,
    ...limitOf(bands[0]),
    editions: [named('saw', rule)],
    entries: [saw.hash, ...(finished ? [finished.hash] : []), ...rule.chosenIn],
  } as const
  if (!finished) return jobFinding({ ...base, verdict: 'not-recorded', missing: ['finish-end'] })
  const since = measure(ratio(BigInt(instant(saw.at) - instant(finished.at)), 3_600_000n), 'h')
  const verdicts = new Set(bands.map((band) => compareTo('saw-hours', since, band).verdict))
  const [first] = verdicts
  const isOne = verdicts.size === 1 && first !== undefined
  return jobFinding({
    ...base,
    value: shown(since),
    verdict: isOne ? first : 'not-recorded',
    missing: isOne ? [] : ['saw-tool'],
    notes: ['last-finish-logged', 'concrete-decides'],
  })
}
