import { readLocalTime } from '../../time.ts'
import type { SaidModel } from '../said.ts'

/** In the order in which it happened; of two at one time, by their entries' hashes, so that there is one order. */
export const inTime = <T extends SaidModel>(all: readonly T[]): T[] =>
  [...all].sort(
    (a, b) => (readLocalTime(a.at) ?? 0) - (readLocalTime(b.at) ?? 0) || (a.entry < b.entry ? -1 : 1),
  )
