import type { Kind } from '../../../api/domain/entry/registry.ts'
import { isSentBack } from '../../../api/domain/job/sent-back.ts'
import type { LoadView } from '../../../api/domain/job/view.ts'

/** Where a truck is in its visit, by what was logged of it. */
export type Stage = 'expected' | 'here' | 'discharging' | 'paused' | 'emptied' | 'gone'

export const stageOf = (load: LoadView): Stage => {
  if (load.left.length > 0) return 'gone'
  if (load.ended.length > 0 || isSentBack(load)) return 'emptied'
  if (load.started.length > 0) return load.paused.length > load.resumed.length ? 'paused' : 'discharging'
  // What was logged in the wrong order still says that the truck is there.
  return load.arrived.length > 0 || load.ready.length > 0 || load.slump.length > 0 ? 'here' : 'expected'
}

/** Moments that one tap can log of a load. */
export type TapKind = Extract<
  Kind,
  | 'load.arrived'
  | 'crew.ready'
  | 'discharge.started'
  | 'discharge.paused'
  | 'discharge.resumed'
  | 'discharge.ended'
  | 'load.left'
>

/** What most likely comes next for this load, and what may come instead. Source: JOB A2, the truck second by second. */
export type NextTaps = { readonly next: TapKind; readonly also: readonly TapKind[] }

export const nextTaps = (load: LoadView): NextTaps | undefined => {
  switch (stageOf(load)) {
    case 'expected':
      return { next: 'load.arrived', also: [] }
    case 'here':
      return { next: 'discharge.started', also: load.ready.length > 0 ? [] : ['crew.ready'] }
    case 'discharging':
      return { next: 'discharge.ended', also: ['discharge.paused'] }
    case 'paused':
      return { next: 'discharge.resumed', also: ['discharge.ended'] }
    case 'emptied':
      return { next: 'load.left', also: [] }
    case 'gone':
      return undefined
  }
}

const RANK: Readonly<Record<Stage, number>> = {
  discharging: 0,
  paused: 0,
  here: 1,
  emptied: 2,
  expected: 3,
  gone: 4,
}

/**
 * The load that the next tap is about: the one that somebody took in hand, else the one at the chute, else the one that
 * waits longest. None once all are gone: then the next tap is the next truck.
 */
export const loadInHand = (loads: readonly LoadView[], chosen: string | undefined): LoadView | undefined => {
  const taken = loads.find((load) => load.id === chosen || (chosen && load.joined.includes(chosen)))
  if (taken) return taken
  return loads
    .filter((load) => stageOf(load) !== 'gone')
    .reduce<LoadView | undefined>(
      (best, load) => (best && RANK[stageOf(best)] <= RANK[stageOf(load)] ? best : load),
      undefined,
    )
}
