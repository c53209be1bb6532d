import { boxFeet3, FEET3_PER_YARD3 } from '../trade/box.ts'
import { compare, inUnit, minus, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import { isSentBack } from './sent-back.ts'
import type { JobView, LoadView, Part } from './view.ts'

const ZERO = ratio(0n)

/** A rectangle of slab in cubic yards: length × width × thickness. Undefined where a side is no length. */
export const partYards = (part: Part): Ratio | undefined => {
  const sides = [part.length, part.width, part.thickness].map((side) => inUnit(side, 'ft'))
  const [l, w, t] = sides.map((side) => (side.ok ? side.value : undefined))
  return l && w && t && over(boxFeet3(l, w, t), FEET3_PER_YARD3)
}

/** What was formed by the plan. A part that stands with several sizes is in no sum: which of them was formed isn't known. */
export type Formed = {
  /** In yd³; undefined where no part has one size. */
  readonly yards: Ratio | undefined
  readonly partsWithout: number
}

/** Each part counts once, in however many standing plans it is. */
export const formedYards = (job: JobView): Formed => {
  const sizes = new Map<string, Ratio[]>()
  for (const part of partsPlanned(job)) {
    const yards = partYards(part)
    sizes.set(part.part, distinct([...(sizes.get(part.part) ?? []), ...(yards ? [yards] : [])]))
  }
  const known = [...sizes.values()].flatMap((all) => (all.length === 1 ? all : []))
  return { yards: known.length === 0 ? undefined : sum(known), partsWithout: sizes.size - known.length }
}

/** Two parts under one name, or one part with two sizes: a plan that two people made, of which a sum counts both or none. */
export const isPartPlannedTwice = (job: JobView): boolean => {
  const idsOf = new Map<string, Set<string>>()
  for (const { name, part } of partsPlanned(job)) {
    const key = name.trim().toLowerCase()
    idsOf.set(key, new Set([...(idsOf.get(key) ?? []), part]))
  }
  return formedYards(job).partsWithout > 0 || [...idsOf.values()].some((ids) => ids.size > 1)
}

const partsPlanned = (job: JobView): Part[] => job.placements.flatMap((s) => s.value.parts)

/** Sum of all orders and balances; undefined where none was recorded. */
export const orderedYards = (job: JobView): Ratio | undefined => {
  const all = [...job.ordered.map((s) => s.value), ...job.balance.map((s) => s.value.yards)]
  return all.length === 0 ? undefined : sum(all.map((q) => toYards(q)))
}

const toYards = (quantity: Parameters<typeof inUnit>[0]): Ratio => {
  const yards = inUnit(quantity, 'yd3')
  return yards.ok ? yards.value : ZERO
}

const distinct = (all: readonly Ratio[]): Ratio[] =>
  all.filter((a, i) => all.findIndex((b) => compare(a, b) === 0) === i).sort(compare)

/** Yards that a load's tickets state, in yd³: several where they differ, none where none states any. */
export const ticketYards = (load: LoadView): Ratio[] =>
  distinct(load.ticket.flatMap(({ value: { yards } }) => (yards.is === 'given' ? [toYards(yards)] : [])))

/**
 * What a load's ticket states, less what is said to have been left of it; nothing of a load that was sent back. Undefined
 * where either isn't known: that nobody spoke of a rest is not that there was none.
 */
export const placedOf = (load: LoadView): Ratio | undefined => {
  if (isSentBack(load)) return ZERO
  const ticketed = ticketYards(load)
  const left = leftOverOf(load)
  if (ticketed.length !== 1 || left === undefined) return undefined
  const placed = minus(ticketed[0]!, left)
  return compare(placed, ZERO) < 0 ? undefined : placed
}

export const placedYards = (loads: readonly LoadView[]): Ratio =>
  loads.reduce((all, load) => plus(all, placedOf(load) ?? ZERO), ZERO)

/** What of a load was not placed, in yd³; undefined where nobody said, was sure, or two differing answers stand. */
export const leftOverOf = (load: LoadView): Ratio | undefined => {
  const answers = load.leftOver.map(({ value: { yards } }) => yards)
  if (answers.some((yards) => yards.is === 'not-sure')) return undefined
  const all = distinct(answers.map((yards) => (yards.is === 'given' ? toYards(yards) : ZERO)))
  return all.length === 1 ? all[0] : undefined
}

/** More is said to be left over, or to have gone to one place and another, than any of the load's tickets states. */
export const isMoreThanTicketed = (load: LoadView): boolean => {
  const most = ticketYards(load).at(-1)
  if (most === undefined) return false
  const left = load.leftOver.map(({ value: { yards } }) => (yards.is === 'given' ? toYards(yards) : ZERO))
  const places = load.placed.flatMap((s) =>
    s.value.places.flatMap(({ yards }) => (yards ? [toYards(yards)] : [])),
  )
  return [...left, sum(places)].some((yards) => compare(yards, most) > 0)
}

/** Placed above formed, in per cent of formed; undefined where a plan's sides come to nothing. */
export const overFormedPercent = (placed: Ratio, formed: Ratio): Ratio | undefined =>
  compare(formed, ZERO) > 0 ? times(over(minus(placed, formed), formed), ratio(100n)) : undefined
