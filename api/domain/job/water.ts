import { compare, inUnit, type Ratio, ratio, sum } from '../units.ts'
import { minutesOf } from './minutes.ts'
import type { LoadView, Said, WaterAddition } from './view.ts'

/** Water put in on site, in gallons: an exact sum, and whether it is all there is to know. */
export type WaterFigure =
  | { readonly is: 'not-recorded' }
  | { readonly is: 'none' }
  | {
      readonly is: 'given'
      readonly gallons: Ratio
      /** Somebody was not sure of a further amount, so that the sum is the least that it was. */
      readonly alsoNotSure: boolean
      readonly alsoNone: boolean
    }
  | { readonly is: 'not-sure' }

/**
 * Gallons added, by when they went in against the load's own discharge. Where nobody said it, the recorded times may make it
 * plain: `byTimes` is how much of `before` and of `afterBegan` rests on that alone.
 */
export type WaterByStage = {
  readonly before: Ratio
  readonly afterBegan: Ratio
  readonly inTransit: Ratio
  /** Neither said, nor plain from the times. */
  readonly notSaid: Ratio
  readonly byTimes: { readonly before: Ratio; readonly afterBegan: Ratio }
}

type Stage = NonNullable<WaterAddition['stage']>
/** A stage, and whether somebody said it or the times alone do. */
export type StageFound = { readonly stage: Stage; readonly how: 'said' | 'by-the-times' }

export const gallonsOf = ({ value: { amount } }: { readonly value: WaterAddition }): Ratio => {
  const gallons = amount.is === 'given' ? inUnit(amount, 'gal') : undefined
  return gallons?.ok ? gallons.value : ratio(0n)
}

export const isSome = (addition: { readonly value: WaterAddition }): boolean =>
  compare(gallonsOf(addition), ratio(0n)) > 0

/**
 * When water went in: as said, else as the times have it where the addition's minute lies before, or after, every recorded
 * start of discharge. In the start's own minute, or with no start recorded, nothing is plain: undefined.
 */
export const stageOf = (
  addition: Said<WaterAddition>,
  load: Pick<LoadView, 'started'>,
): StageFound | undefined => {
  const { stage } = addition.value
  if (stage !== undefined) return { stage, how: 'said' }
  const byTimes = stageByTimes(addition, load)
  return byTimes && { stage: byTimes, how: 'by-the-times' }
}

const stageByTimes = (
  { at }: Said<WaterAddition>,
  { started }: Pick<LoadView, 'started'>,
): Stage | undefined => {
  const since = minutesOf(
    started.map((s) => s.value),
    [at],
  ).minutes
  if (since.length === 0) return undefined
  if (since.every((minutes) => minutes < 0)) return 'before-discharge'
  return since.every((minutes) => minutes > 0) ? 'after-discharge-began' : undefined
}

/** Some addition is said to have gone in before discharge, or after it began, and the times have it the other way round. */
export const isStageAgainstTimes = (load: LoadView): boolean =>
  load.water.some((addition) => {
    const { stage } = addition.value
    const byTimes = isSome(addition) ? stageByTimes(addition, load) : undefined
    if (stage === undefined || byTimes === undefined) return false
    return (stage === 'after-discharge-began') !== (byTimes === 'after-discharge-began')
  })

export const waterByStage = (load: LoadView): WaterByStage => {
  const found = load.water.map((addition) => ({ addition, found: stageOf(addition, load) }))
  const of = (stage: Stage | undefined, how?: StageFound['how']) =>
    sum(
      found
        .filter((one) => one.found?.stage === stage && (how === undefined || one.found?.how === how))
        .map(({ addition }) => gallonsOf(addition)),
    )
  return {
    before: of('before-discharge'),
    afterBegan: of('after-discharge-began'),
    inTransit: of('in-transit'),
    notSaid: of(undefined),
    byTimes: {
      before: of('before-discharge', 'by-the-times'),
      afterBegan: of('after-discharge-began', 'by-the-times'),
    },
  }
}

export const waterFigure = (load: LoadView): WaterFigure => {
  const answers = load.water.map((s) => s.value.amount.is)
  const alsoNotSure = answers.includes('not-sure')
  const alsoNone = answers.includes('none')
  if (answers.includes('given'))
    return { is: 'given', gallons: sum(load.water.map(gallonsOf)), alsoNotSure, alsoNone }
  if (alsoNotSure) return { is: 'not-sure' }
  return alsoNone ? { is: 'none' } : { is: 'not-recorded' }
}

/**
 * Somebody said that none went in, and somebody that some did. None before discharge and some after it began are two
 * answers to two questions.
 */
export const isNoneAndSome = (load: LoadView): boolean => {
  const some = load.water.filter(isSome)
  return load.water.some(({ value: { amount, stage } }) => {
    if (amount.is !== 'none') return false
    return some.some((other) => stage === undefined || (stageOf(other, load)?.stage ?? stage) === stage)
  })
}
