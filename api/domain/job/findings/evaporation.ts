import { dayOf } from '../../time.ts'
import { EVAPORATION_THRESHOLDS, evaporationFinding, evaporationRate } from '../../trade/evaporation.ts'
import { siteClock } from '../nights.ts'
import type { JobView, LoadView, Said } from '../view.ts'
import { type JobEditions, named, type Used } from './editions.ts'
import {
  entered,
  type Input,
  type JobFinding,
  jobFinding,
  limitOf,
  type Missing,
  type Note,
  shownEstimate,
} from './finding.ts'
import { instant, isAbout, loadsTaken, partsOf } from './where.ts'

type Weather = JobView['weather'][number]
type Surface = Said<LoadView['temperatures'][number]['value']>

/**
 * The rate at which water left each load's surface, for each row of the weather from its first concrete in the forms to
 * the last cure of its parts: by the last temperature that was measured of it. The wind is the one that was logged, with
 * where it comes from; it isn't brought down to the slab, since that would be a guess. A rate is no prompt to do anything.
 * Source: as `evaporationRate` and `EVAPORATION_THRESHOLDS`.
 */
export const evaporationFindings = (job: JobView, editions: JobEditions): JobFinding[] =>
  loadsTaken(job).flatMap((load) => {
    const span = spanOf(job, load)
    if (!span) return []
    const surfaces = surfaceReadings(job, load, span)
    return job.weather
      .filter(({ at }) => instant(at) >= span.from && instant(at) <= span.to)
      .flatMap((row) =>
        editions.evaporation.flatMap((form) =>
          editions.threshold.map((kind) => ofRow(load, row, surfaces, span, form, kind)),
        ),
      )
  })

type Span = { readonly from: number; readonly to: number; readonly cure: string | undefined }

/** A cure that is put on later than this after the first concrete is no end of the hours that a surface bleeds. Source: our choice. */
const CURED_WITHIN_MS = 86_400_000

/** To the end of the day of placing where no cure is logged. */
const spanOf = (job: JobView, load: LoadView): Span | undefined => {
  const starts = load.started.map((s) => instant(s.value))
  if (starts.length === 0) return undefined
  const from = Math.min(...starts)
  const parts = partsOf(load)
  const last = job.cures
    .filter(
      ({ at, value }) =>
        instant(at) >= from && instant(at) <= from + CURED_WITHIN_MS && isAbout(parts, value.parts),
    )
    .reduce<JobView['cures'][number] | undefined>(
      (a, b) => (a && instant(a.at) > instant(b.at) ? a : b),
      undefined,
    )
  if (last) return { from, to: instant(last.at), cure: last.hash }
  const onSite = siteClock(job)
  const day = dayOf(onSite(load.started[0]!.value))
  const sameDay = job.weather.filter(({ at }) => dayOf(onSite(at)) === day).map(({ at }) => instant(at))
  return { from, to: Math.max(from, ...sameDay), cure: undefined }
}

/** Of its concrete, and of the surface of its parts while they lay open, in the order in which they were read. */
const surfaceReadings = (job: JobView, load: LoadView, { from, to }: Span): Surface[] => {
  const parts = partsOf(load)
  const all: readonly Surface[] = [
    ...load.temperatures,
    ...job.temperatures.filter(
      ({ at, value: { of, part } }) =>
        of === 'surface' &&
        instant(at) >= from &&
        instant(at) <= to &&
        isAbout(parts, part === undefined ? undefined : [part]),
    ),
  ]
  return all
    .filter(({ value: { of, temperature } }) => of !== 'air' && temperature.is === 'given')
    .sort((a, b) => instant(a.at) - instant(b.at) || (a.hash < b.hash ? -1 : 1))
}

const ofRow = (
  load: LoadView,
  row: Weather,
  surfaces: readonly Surface[],
  span: Span,
  form: Used<'evaporation'>,
  kind: Used<'threshold'>,
): JobFinding => {
  // The last one up to then; of a row before the first, that one.
  const surface = surfaces.filter(({ at }) => instant(at) <= instant(row.at)).at(-1) ?? surfaces[0]
  const concrete =
    surface && surface.value.temperature.is === 'given' ? entered(surface.value.temperature) : undefined
  const { air, humidity, wind } = row.value
  const threshold = EVAPORATION_THRESHOLDS[kind.edition]
  const base = {
    of: 'evaporation',
    load: load.id,
    at: row.at,
    inputs: inputsOf(row, surface),
    ...limitOf({ most: threshold.act, open: 'under-most', source: threshold.source }),
    editions: [named('evaporation', form), named('threshold', kind)],
    entries: [
      ...(surface ? [surface.hash] : []),
      row.hash,
      ...(span.cure === undefined ? [] : [span.cure]),
      ...form.chosenIn,
      ...kind.chosenIn,
    ],
  } as const
  const notes = windNotes(row, span)
  const missing: Missing[] = [
    ...(concrete ? [] : (['concrete-temperature'] as const)),
    ...(air ? [] : (['air-temperature'] as const)),
    ...(humidity ? [] : (['humidity'] as const)),
    ...(wind ? [] : (['wind'] as const)),
  ]
  if (missing.length > 0) return jobFinding({ ...base, verdict: 'not-recorded', missing, notes })
  const rate = evaporationRate({
    concrete,
    air: entered(air),
    humidity: entered(humidity),
    wind: entered(wind),
    form: form.edition,
  })
  if (!rate.ok) return jobFinding({ ...base, verdict: 'not-recorded', notes: [...notes, 'out-of-range'] })
  const found = evaporationFinding(rate.value.rate, kind.edition)
  return jobFinding({
    ...base,
    value: shownEstimate(rate.value.rate.estimate, 'lb/ft2/h', 3),
    formula: rate.value.source,
    verdict: found.verdict,
    notes: [
      ...notes,
      ...(found.near ? (['near-threshold'] as const) : []),
      ...(rate.value.direction === 'settles' ? (['water-settles'] as const) : []),
    ],
  })
}

const inputsOf = (
  { hash, value: { air, humidity, wind } }: Weather,
  surface: Surface | undefined,
): Input[] => {
  const of = (
    name: Input['of'],
    said: { readonly is: string; readonly text?: string; readonly unit?: Input['unit'] } | undefined,
    entry: string,
  ): Input[] =>
    said?.text === undefined || said.unit === undefined
      ? []
      : [{ of: name, text: said.text, unit: said.unit, entry }]
  return [
    ...(surface
      ? of(
          surface.value.of === 'surface' ? 'surface-temperature' : 'concrete-temperature',
          surface.value.temperature,
          surface.hash,
        )
      : []),
    ...of('air', air, hash),
    ...of('humidity', humidity, hash),
    ...of('wind', wind, hash),
  ]
}

const windNotes = ({ value: { source, windHeight } }: Weather, { cure }: Span): Note[] => [
  ...(source === 'service' ? (['station-wind'] as const) : []),
  ...(source === 'by-feel' ? (['wind-by-feel'] as const) : []),
  ...(source === 'gauge-here' && windHeight === undefined ? (['wind-height-unknown'] as const) : []),
  ...(cure === undefined ? (['no-cure-logged'] as const) : []),
]
