import type { LoadFigures } from '../../../api/domain/job/figures.ts'
import type { LoadView, WaterAddition } from '../../../api/domain/job/view.ts'
import { isSome, stageOf as waterStageOf } from '../../../api/domain/job/water.ts'
import { readLocalTime } from '../../../api/domain/time.ts'
import { compare } from '../../../api/domain/units.ts'
import { stageOf } from './stage.ts'

type WaterStage = NonNullable<WaterAddition['stage']>

/**
 * A question about water that is due. `stage` is what it asks about and goes into the answer; without one it asks about all
 * water so far. `why` is what made it due.
 */
export type WaterAsk = {
  readonly stage: WaterStage | undefined
  readonly why: 'first' | 'paused' | 'low-slump' | 'emptied'
}

/**
 * Whether water should be asked about now. Once before discharge; and again when a later addition is likely: the chute
 * stopped, a slump read under what was asked for, or the drum is empty and nobody spoke of water since it began. Never
 * before the truck stands, and never after it left. Source: JOB 0 findings 2–4; the moments are our choice.
 */
export const waterAsk = (load: LoadView, figures: LoadFigures | undefined): WaterAsk | undefined => {
  const stage = stageOf(load)
  if (stage === 'expected' || stage === 'gone' || load.rejected.length > 0) return undefined
  if (load.water.length === 0)
    return { stage: stage === 'here' ? 'before-discharge' : undefined, why: 'first' }
  const low = isLowSince(load, figures)
  if (stage === 'here') {
    // Where some went in already, "none" would speak against it; a further amount can be logged at any time.
    return low && !load.water.some(isSome) ? { stage: 'before-discharge', why: 'low-slump' } : undefined
  }
  if (spokeOfLater(load)) return undefined
  const later = { stage: 'after-discharge-began' } as const
  if (stage === 'paused') return { ...later, why: 'paused' }
  if (low) return { ...later, why: 'low-slump' }
  return stage === 'emptied' ? { ...later, why: 'emptied' } : undefined
}

/** Somebody answered for the time after discharge began, or answered after it had. */
const spokeOfLater = (load: LoadView): boolean => {
  const started = Math.min(...load.started.map((s) => instant(s.value)))
  return load.water.some((said) => {
    const found = waterStageOf(said, load)?.stage
    return (
      found === 'after-discharge-began' || (said.value.stage === undefined && instant(said.at) >= started)
    )
  })
}

/** The newest slump reading lies under what was asked for, and nobody spoke of water since. */
const isLowSince = (load: LoadView, figures: LoadFigures | undefined): boolean => {
  const newest = load.slump.reduce<LoadView['slump'][number] | undefined>(
    (best, said) => (best && instant(best.at) >= instant(said.at) ? best : said),
    undefined,
  )
  if (!newest) return false
  const low = (figures?.tolerances ?? []).some(
    ({ reading, from, value }) => reading === newest.hash && from !== undefined && compare(value, from) < 0,
  )
  return low && load.water.every((said) => instant(said.at) < instant(newest.at))
}

const instant = (at: string): number => readLocalTime(at) ?? 0

/**
 * Answers of "none" that gallons of this stage speak against: none had gone in when that was said, and then some did. The
 * gallons correct them, and both stay in the history.
 */
export const noneBefore = (load: LoadView, stage: WaterStage | undefined): readonly string[] =>
  load.water.flatMap(({ hash, value }) =>
    value.amount.is === 'none' && (value.stage === undefined || stage === undefined || value.stage === stage)
      ? [hash]
      : [],
  )
