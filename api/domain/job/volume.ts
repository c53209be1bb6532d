import { compare, inUnit, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import type { JobView, LoadView, Part } from './view.ts'

const FEET3_PER_YARD3 = ratio(27n)

/** A rectangle of slab in cubic yards: length × width × thickness. Undefined where a side is no length. */
export const partYards = (part: Part): Ratio | undefined => {
  const sides = [part.length, part.width, part.thickness].map((side) => inUnit(side, 'ft'))
  const [l, w, t] = sides.map((side) => (side.ok ? side.value : undefined))
  return l && w && t && over(times(l, times(w, t)), FEET3_PER_YARD3)
}

/** What was formed, by the planned parts; undefined where nothing was planned. A plan that is in conflict counts once each. */
export const formedYards = (job: JobView): Ratio | undefined => {
  const parts = job.placements.flatMap((s) => s.value.parts)
  return parts.length === 0 ? undefined : sum(parts.map((part) => partYards(part) ?? ratio(0n)))
}

export const orderedYards = (job: JobView): Ratio | undefined => {
  const all = [...job.ordered.map((s) => s.value), ...job.balance.map((s) => s.value.yards)]
  return all.length === 0 ? undefined : sum(all.map((q) => toYards(q)))
}

const toYards = (quantity: Parameters<typeof inUnit>[0]): Ratio => {
  const yards = inUnit(quantity, 'yd3')
  return yards.ok ? yards.value : ratio(0n)
}

/** What a load's ticket states, less what is said to have been left of it; nothing of a load that was rejected. */
export const placedOf = (load: LoadView): Ratio | undefined => {
  const ticket = load.ticket.length === 1 ? load.ticket[0]!.value.yards : undefined
  if (load.rejected.length > 0) return ratio(0n)
  if (ticket?.is !== 'given') return undefined
  const left = load.leftOver.length === 1 ? load.leftOver[0]!.value.yards : undefined
  const placed = minus(toYards(ticket), left?.is === 'given' ? toYards(left) : ratio(0n))
  return compare(placed, ratio(0n)) < 0 ? ratio(0n) : placed
}

export const placedYards = (loads: readonly LoadView[]): Ratio =>
  loads.reduce((all, load) => plus(all, placedOf(load) ?? ratio(0n)), ratio(0n))

/** Placed above formed, in per cent of formed. */
export const overFormedPercent = (placed: Ratio, formed: Ratio): Ratio =>
  times(over(minus(placed, formed), formed), ratio(100n))
