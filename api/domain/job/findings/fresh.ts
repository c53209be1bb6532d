import { compareTo, type Limit } from '../../trade/finding.ts'
import { type Measure, measure, toUnit } from '../../trade/measure.ts'
import { airFinding, slumpTolerance } from '../../trade/tolerance.ts'
import { minus, plus } from '../../units.ts'
import type { JobView, LoadView, Said, Ticket } from '../view.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import { entered, type JobFinding, jobFinding, limitOf, shown } from './finding.ts'

type Asked = Pick<Ticket, 'slump' | 'air'>
type AskedBy = { readonly asked: Asked; readonly hash: string; readonly by: 'order' | 'ticket' }
/** A limit, and whether the chosen tolerances had a part in it. */
type Ends<U extends 'in' | 'pct'> = { readonly limit: Limit<U> | undefined; readonly usesEdition: boolean }
type Reading<U extends 'in' | 'pct'> = {
  readonly hash: string
  readonly at: string
  readonly value: Measure<U>
  readonly byEye: boolean
}

/**
 * Slump and air readings against what the order asks for, or the ticket where the order doesn't: with the tolerance that
 * is named there, else with the one that the chosen edition has for it. Source: as `slumpTolerance` and `airFinding`.
 */
export const freshFindings = (job: JobView, editions: JobEditions): JobFinding[] =>
  job.loads.flatMap((load) => [
    ...ofReadings('slump', slumps(load), load, askedOf(load, job, 'slump'), slumpEnds, editions),
    ...ofReadings('air', airs(load), load, askedOf(load, job, 'air'), airEnds, editions),
  ])

const ofReadings = <U extends 'in' | 'pct'>(
  of: 'slump' | 'air',
  readings: readonly Reading<U>[],
  load: LoadView,
  asked: readonly AskedBy[],
  endsOf: (asked: AskedBy, rule: Used<'tolerances'>) => Ends<U>,
  { tolerances }: JobEditions,
): JobFinding[] =>
  readings.flatMap(({ hash, at, value, byEye }) => {
    const base = {
      of,
      load: load.id,
      at,
      value: shown(value),
      notes: byEye ? (['by-eye'] as const) : [],
    } as const
    if (asked.length === 0) return [jobFinding({ ...base, verdict: 'limit-not-stated', entries: [hash] })]
    return asked.flatMap((one) => {
      const ends = tolerances.map((rule) => ({ rule, ...endsOf(one, rule) }))
      // Where the order names its own tolerance, it is one finding whatever was chosen.
      const distinct = ends.filter(({ usesEdition }, i) => usesEdition || i === 0)
      return distinct.map(({ rule, limit, usesEdition }) =>
        jobFinding({
          ...base,
          ...limitOf(limit),
          editions: usesEdition ? [named('tolerances', rule)] : [],
          verdict: compareTo(of, value, limit).verdict,
          entries: [hash, one.hash, ...(usesEdition ? rule.chosenIn : [])],
        }),
      )
    })
  })

const askedOf = (load: LoadView, { mix }: JobView, what: 'slump' | 'air'): AskedBy[] => {
  const of = (all: readonly Said<Asked>[], by: AskedBy['by']): AskedBy[] =>
    all.flatMap(({ hash, value }) => {
      const said = value[what]
      return said && said.is !== 'not-stated' ? [{ asked: value, hash, by }] : []
    })
  const ordered = of(mix, 'order')
  return ordered.length > 0 ? ordered : of(load.ticket, 'ticket')
}

const slumpEnds = ({ asked: { slump }, by }: AskedBy, rule: Used<'tolerances'>): Ends<'in'> => {
  if (!slump || slump.is === 'not-stated') return { limit: undefined, usesEdition: false }
  const specified = entered(slump.is === 'target' ? slump.target : slump.most)
  const own = slump.is === 'target' ? entered(slump.tolerance) : undefined
  if (!specified) return { limit: undefined, usesEdition: false }
  const middle = toUnit(specified, 'in')
  if (own) {
    const either = toUnit(own, 'in')
    const limit = {
      least: measure(minus(middle, either), 'in'),
      most: measure(plus(middle, either), 'in'),
      source: by,
    }
    return { limit, usesEdition: false }
  }
  if (rule.edition === 'stated-only')
    return { limit: slump.is === 'most' ? { most: middle, source: by } : undefined, usesEdition: true }
  const form = slump.is === 'target' ? 'target' : 'maximum'
  const tolerance = slumpTolerance({ specified, form })
  return { limit: tolerance.ok ? tolerance.value : undefined, usesEdition: true }
}

const airEnds = ({ asked: { air }, by }: AskedBy, rule: Used<'tolerances'>): Ends<'pct'> => {
  if (air?.is !== 'given') return { limit: undefined, usesEdition: false }
  const [least, most] = [entered(air.from), entered(air.to)]
  if (least || most)
    return {
      limit: { ...(least ? { least } : {}), ...(most ? { most } : {}), source: by },
      usesEdition: false,
    }
  if (rule.edition === 'stated-only') return { limit: undefined, usesEdition: true }
  const found = airFinding({ specified: entered(air.target), measured: undefined })
  return { limit: found.ok ? found.value.limit : undefined, usesEdition: true }
}

const slumps = ({ slump }: LoadView): Reading<'in'>[] =>
  slump.flatMap(({ hash, at, value }) => {
    const read = value.slump.is === 'given' ? entered(value.slump) : undefined
    return read ? [{ hash, at, value: toUnit(read, 'in'), byEye: value.how === 'by-eye' }] : []
  })

/** Air less the aggregate correction, where one is said. */
const airs = ({ air }: LoadView): Reading<'pct'>[] =>
  air.flatMap(({ hash, at, value }) => {
    const meter = value.air.is === 'given' ? entered(value.air) : undefined
    const correction = entered(value.aggregateCorrection)
    if (!meter) return []
    return [{ hash, at, value: correction ? measure(minus(meter, correction), 'pct') : meter, byEye: false }]
  })
