import type { Chance } from '../kit/chance.ts'

/** The one great trouble of a day, besides the everyday ones. */
export type Trouble =
  | 'none'
  /** The server is put back from an old backup. */
  | 'server-restored'
  /** A server shows two people two histories, and then one of them to both. */
  | 'split-view'
  /** A copy of a phone, key and all, goes on beside it. */
  | 'phone-cloned'
  /** A phone is put back to an older state of its own. */
  | 'phone-restored'
  | 'phone-withdrawn'
  /** A browser throws away all that a phone kept. */
  | 'storage-evicted'

/** What a seed decides about its day before it begins. */
export type Plan = {
  /** The owner's phone, an office browser or none, and the crew's. */
  readonly crew: number
  readonly office: boolean
  readonly steps: number
  readonly processes: 1 | 2
  readonly trouble: Trouble
  /** After which step the trouble comes; for what needs a beginning and an end, also when it began. */
  readonly from: number
  readonly at: number
  /** The step after which a server that knew the first release alone learns the second; undefined: it knows both. */
  readonly updatedAt: number | undefined
  /** Whether the figures of its jobs are worked out at the end: they cost as much as the day. */
  readonly figures: boolean
}

const TROUBLES: readonly Trouble[] = [
  'none',
  'none',
  'server-restored',
  'server-restored',
  'split-view',
  'split-view',
  'phone-cloned',
  'phone-restored',
  'phone-withdrawn',
  'storage-evicted',
]

export const makePlan = (chance: Chance): Plan => {
  const office = chance.chance(0.2)
  const steps = 2 + chance.below(3)
  const from = chance.below(steps - 1)
  return {
    crew: chance.chance(0.08) ? 4 : chance.chance(0.35) ? 2 : 1,
    office,
    steps,
    processes: chance.chance(0.35) ? 2 : 1,
    trouble: chance.pick(TROUBLES),
    from,
    // Half of the time at the very end, when nobody logs anything more that could bring it to light.
    at: chance.chance(0.5) ? steps - 1 : from + 1 + chance.below(steps - from - 1),
    updatedAt: chance.chance(0.15) ? chance.below(steps) : undefined,
    figures: chance.chance(0.1),
  }
}
