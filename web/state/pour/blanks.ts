import type { JobFigures, MissingKey } from '../../../api/domain/job/figures.ts'
import type { GapCode } from '../../../api/domain/job/missing.ts'
import type { JobView, LoadView } from '../../../api/domain/job/view.ts'
import type { Over } from '../job-here.ts'
import { stageOf } from './stage.ts'

/** What was not taken while there was time for it: said in one touch, and not the same as not recorded. */
export type NotTaken = 'slump.measured' | 'air.measured' | 'concrete.temperature'

/** One thing that the log lacks and that somebody may still know. */
export type Blank = {
  readonly key: string
  readonly of: MissingKey | GapCode
  readonly load: LoadView | undefined
  readonly part: string | undefined
  /** Seconds of anyone's attention, by which the list is put in order. Source: our estimate; nobody was timed. */
  readonly seconds: number
  readonly over: NonNullable<Over>
  readonly notTaken: NotTaken | undefined
}

type Way = { readonly seconds: number; readonly over: (load: string) => Over; readonly notTaken?: NotTaken }

const form =
  (kind: Extract<Over, { is: 'new' }>['kind']) =>
  (load: string): Over => ({ is: 'new', kind, load })
const quick =
  (ask: Extract<Over, { is: 'quick' }>['ask']) =>
  (load: string): Over => ({ is: 'quick', ask, load })

/** How each blank of a load is filled. What is not here can't be known afterwards, or would be answered by guessing. */
const OF_LOAD: { readonly [K in MissingKey | GapCode]?: Way } = {
  water: { seconds: 3, over: quick('water') },
  'left-over': { seconds: 3, over: quick('left-over') },
  slump: { seconds: 4, over: quick('slump'), notTaken: 'slump.measured' },
  air: { seconds: 4, over: quick('air'), notTaken: 'air.measured' },
  'concrete-temperature': {
    seconds: 4,
    over: quick('concrete-temperature'),
    notTaken: 'concrete.temperature',
  },
  signature: { seconds: 5, over: form('ticket.signed') },
  arrived: { seconds: 6, over: form('load.arrived') },
  started: { seconds: 6, over: form('discharge.started') },
  ended: { seconds: 6, over: form('discharge.ended') },
  left: { seconds: 6, over: form('load.left') },
  'where-placed': { seconds: 10, over: form('load.placed') },
  cylinders: { seconds: 8, over: form('cylinders.made') },
  ticket: { seconds: 25, over: form('ticket.recorded') },
}

const ofJob =
  (kind: Extract<Over, { is: 'new' }>['kind'], part: 'part' | 'none' = 'none') =>
  (id: string | undefined): Over => ({
    is: 'new',
    kind,
    ...(part === 'part' && id ? { given: { part: id } as never } : {}),
  })

/** Of the whole job: what may still be known while the slab bleeds. The steps of the finish have a pad of their own. */
const OF_JOB: { readonly [K in GapCode]?: { seconds: number; over: (part: string | undefined) => Over } } = {
  weather: { seconds: 12, over: ofJob('weather.observed') },
  'surface-temperature': {
    seconds: 8,
    over: () => ({ is: 'new', kind: 'temperature.measured', given: { of: 'surface' } as never }),
  },
  depth: { seconds: 8, over: ofJob('depth.measured', 'part') },
  base: { seconds: 10, over: ofJob('base.checked', 'part') },
}

/**
 * What the log lacks and somebody may still fill in, the quickest first; among equals the earlier load. A load that is
 * still at the forms is left alone: the dock asks for what is next there.
 */
export const blanksOf = (job: JobView, figures: JobFigures): readonly Blank[] => {
  const gone = job.loads.filter((load) => ['gone', 'emptied'].includes(stageOf(load)))
  const ofLoads = gone.flatMap((load): Blank[] => {
    const missing = figures.loads.find((one) => one.load === load.id)?.missing ?? []
    const open = figures.gaps.flatMap((gap) =>
      gap.load === load.id && gap.is === 'not-recorded' ? [gap.gap] : [],
    )
    return [...new Set<MissingKey | GapCode>([...missing, ...open])].flatMap((of): Blank[] => {
      const way = OF_LOAD[of]
      if (!way || (of === 'left' && stageOf(load) === 'emptied')) return []
      const { seconds, notTaken } = way
      return [
        {
          key: `${load.id} ${of}`,
          of,
          load,
          part: undefined,
          seconds,
          over: way.over(load.id),
          notTaken,
        },
      ]
    })
  })
  const ofTheJob = figures.gaps.flatMap(({ gap, is, load, part }): Blank[] => {
    const way = OF_JOB[gap]
    if (load !== undefined || is !== 'not-recorded' || !way) return []
    const over = way.over(part)
    const key = `${part ?? 'job'} ${gap}`
    return [{ key, of: gap, load: undefined, part, seconds: way.seconds, over, notTaken: undefined }]
  })
  return [...ofLoads, ...ofTheJob].sort((a, b) => a.seconds - b.seconds)
}
