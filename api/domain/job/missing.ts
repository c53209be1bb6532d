import { minutesBetween, readLocalTime } from '../time.ts'
import type { Verdict } from './limit.ts'
import { lastNightTold } from './nights.ts'
import { isSentBack } from './sent-back.ts'
import type { JobView, LoadView, Said } from './view.ts'
import { isSome, stageOf } from './water.ts'

/** What a dispute may turn on and this log does not say. */
export type GapCode =
  | 'base'
  | 'depth'
  | 'weather'
  | 'surface-temperature'
  | 'bleed-water'
  | 'joints'
  | 'cure'
  | 'nights'
  | 'slump'
  | 'air'
  | 'concrete-temperature'
  | 'cylinders'
  | 'slump-after-water'
  | 'air-after-water'
  | 'in-drum'
  | 'where-placed'
  | 'left-over'
  | 'waiver'
  | 'signature'
  | 'curb-line'

/** Not taken and left blank were said by somebody; of what is not recorded nobody said anything; by eye is not measured. */
export type GapIs = 'not-recorded' | 'not-taken' | 'by-eye' | 'left-blank'

export type JobGap = {
  readonly gap: GapCode
  readonly is: GapIs
  readonly load?: string
  readonly part?: string
  /** Of nights: the last one of which something is recorded, by its evening's date. */
  readonly after?: string
}

/** Everything that a job's log leaves open, in the order in which it would have happened. */
export const gapsOf = (job: JobView, limits: ReadonlyMap<string, Verdict>): JobGap[] => {
  const taken = job.loads.filter((load) => !isSentBack(load))
  const parts = partsPlaced(job)
  return [
    ...parts.flatMap((part) => beforeThePour(job, part)),
    ...missing('weather', isWeatherKnown(job)),
    ...taken.flatMap((load) => ofLoad(load, limits.get(load.id))),
    ...(taken.length > 0 ? afterwards(job, taken, parts) : []),
  ]
}

const missing = (gap: GapCode, recorded: boolean, of: Pick<JobGap, 'load' | 'part'> = {}): JobGap[] =>
  recorded ? [] : [{ gap, is: 'not-recorded', ...of }]

const isWeatherKnown = (job: JobView): boolean =>
  job.weather.length > 0 ||
  [job, ...job.loads].some(({ temperatures }) =>
    temperatures.some(({ value: { of, temperature } }) => of === 'air' && temperature.is === 'given'),
  )

/** Parts that a load is said to fill; all that were planned, where nobody said where any load went. */
const partsPlaced = (job: JobView): string[] => {
  const planned = new Set(job.placements.flatMap((s) => s.value.parts.map(({ part }) => part)))
  const filled = new Set(
    job.loads.flatMap((load) => load.placed.flatMap((s) => s.value.places.map(({ part }) => part))),
  )
  return [...planned].filter((part) => filled.size === 0 || filled.has(part))
}

/** Said of this part, or of no part in particular. */
const isAbout = (part: string, parts: readonly string[] | undefined): boolean => parts?.includes(part) ?? true

const beforeThePour = (job: JobView, part: string): JobGap[] => [
  ...missing(
    'base',
    job.checks.some(
      ({ value }) => value.what === 'base' && isAbout(part, value.part ? [value.part] : undefined),
    ),
    { part },
  ),
  ...missing(
    'depth',
    job.depths.some(({ value }) => isAbout(part, value.part ? [value.part] : undefined)),
    { part },
  ),
]

const ofLoad = (load: LoadView, limit: Verdict | undefined): JobGap[] => {
  const of = { load: load.id }
  const concrete = load.temperatures.filter((s) => s.value.of === 'concrete')
  return [
    ...reading('slump', load.slump.map(slumpIs), of),
    ...reading(
      'air',
      load.air.map((s) => s.value.air),
      of,
    ),
    ...reading(
      'concrete-temperature',
      concrete.map((s) => s.value.temperature),
      of,
    ),
    ...reading(
      'cylinders',
      load.cylinders.map((s) => s.value.number),
      of,
    ),
    ...afterWater(load),
    ...missing('where-placed', load.placed.length > 0, of),
    ...missing('left-over', load.leftOver.length > 0, of),
    ...(limit === 'outside' ? missing('waiver', load.waived.length > 0, of) : []),
    ...missing('signature', load.signed.length > 0, of),
    ...(load.signed.some((s) => s.value.curb === 'left-blank')
      ? [{ gap: 'curb-line', is: 'left-blank', ...of } as const]
      : []),
  ]
}

type Answer = { readonly is: string }

/** A reading that somebody took, or judged by eye, or said was not taken, or none of these. */
const reading = (gap: GapCode, answers: readonly Answer[], of: Pick<JobGap, 'load'>): JobGap[] => {
  if (answers.some(({ is }) => is === 'given' || is === 'none')) return []
  if (answers.some(({ is }) => is === 'by-eye')) return [{ gap, is: 'by-eye', ...of }]
  return answers.length > 0 ? [{ gap, is: 'not-taken', ...of }] : missing(gap, false, of)
}

const slumpIs = ({ value: { slump, how } }: LoadView['slump'][number]): Answer => ({
  is: slump.is === 'given' && how === 'by-eye' ? 'by-eye' : slump.is,
})

/** After the last water nobody knows slump and air unless they were measured again. */
const afterWater = (load: LoadView): JobGap[] => {
  const of = { load: load.id }
  const additions = load.water.filter(isSome)
  const last = additions.at(-1)
  if (!last) return []
  const slump = load.slump.filter((s) => isAfter(s, last.at)).map(slumpIs)
  const air = load.air.filter((s) => isAfter(s, last.at)).map((s) => s.value.air)
  const isDrumUnknown = additions.some(
    (addition) =>
      stageOf(addition, load)?.stage === 'after-discharge-began' && addition.value.inDrum === undefined,
  )
  return [
    ...reading('slump-after-water', slump, of),
    ...reading('air-after-water', air, of),
    ...missing('in-drum', !isDrumUnknown, of),
  ]
}

type Taken = Said<{
  readonly taking?:
    | { readonly sampledAt?: string | undefined; readonly water?: string | undefined }
    | undefined
}>

/**
 * Sampled in a later minute than the water went in. In the same minute only where somebody said that it was after; never
 * where somebody said that it was before.
 */
const isAfter = ({ at, value: { taking } }: Taken, water: string): boolean => {
  const minutes = minutesBetween(water, taking?.sampledAt ?? at) ?? -1
  return taking?.water !== 'before' && (minutes > 0 || (minutes === 0 && taking?.water === 'after'))
}

const instant = (at: string): number => readLocalTime(at) ?? 0
const afterwards = (job: JobView, loads: readonly LoadView[], parts: readonly string[]): JobGap[] => {
  const jointed = [...job.finish.filter((s) => s.value.step === 'jointing'), ...job.saws]
  const bled = job.finish.filter((s) => s.value.step === 'bleed-water-gone')
  const perPart = (gap: GapCode, all: readonly Said<{ readonly parts?: readonly string[] | undefined }>[]) =>
    parts.flatMap((part) =>
      missing(
        gap,
        all.some((s) => isAbout(part, s.value.parts)),
        { part },
      ),
    )
  return [
    ...missing('surface-temperature', isSurfaceKnown(job, loads, bled)),
    ...perPart('bleed-water', bled),
    ...perPart('joints', jointed),
    ...perPart('cure', job.cures),
    ...nights(job, loads),
  ]
}

/** Between the first concrete in the forms and the last of the bleed water, which evaporation turns on. */
const isSurfaceKnown = (
  job: JobView,
  loads: readonly LoadView[],
  bled: readonly Said<unknown>[],
): boolean => {
  const from = Math.min(...loads.flatMap((load) => load.started.map((s) => instant(s.value))))
  const to = Math.max(...bled.map((s) => instant(s.at)))
  const all = [...job.temperatures, ...loads.flatMap((load) => load.temperatures)]
  return all.some(({ value, at }) => {
    if (value.of !== 'surface' || value.temperature.is !== 'given') return false
    return instant(at) >= from && (bled.length === 0 || instant(at) <= to)
  })
}

/** Always a gap: no log tells of every night there is. It says up to which night this one does. */
const nights = (job: JobView, loads: readonly LoadView[]): JobGap[] => {
  const after = lastNightTold(job, loads)
  return [{ gap: 'nights', is: 'not-recorded', ...(after === undefined ? {} : { after }) }]
}
