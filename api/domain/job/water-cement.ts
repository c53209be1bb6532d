import { ratioFromGallons, WATER_WEIGHT } from '../trade/water-ratio.ts'
import { compare, minus, over, plus, type Ratio, ratio, times } from '../units.ts'
import { drumOf, numberOf, positive, yardsOf } from './drum.ts'
import type { Verdict } from './limit.ts'
import type { LoadView, Said, Ticket } from './view.ts'
import { type WaterByStage, waterByStage, waterFigure } from './water.ts'

/**
 * Water–cement ratio of a part of a load, by mass. Batched: as the ticket has it, before any water on site; first and
 * last: what was discharged before and after the water that went in once discharge had begun; whole: on average.
 */
export type PartRatio = {
  readonly part: 'batched' | 'first' | 'last' | 'whole'
  readonly ratio: Ratio
  /** For the most and the least that may still have been in the drum, where that was judged by eye. */
  readonly range: Range | undefined
  readonly byEye: boolean
  /** Which water reached this part is not said by anybody: the recorded times alone have it so. */
  readonly byTimes: boolean
}

/** The least and the most. */
export type Range = readonly [Ratio, Ratio]

/** What one ticket gives about the water of its load, beside what was added. */
export type TicketWater = {
  /** Hash of the ticket's entry. */
  readonly source: string
  readonly allowance: Allowance
  readonly ratios: readonly PartRatio[]
  readonly maxRatio: Ratio | undefined
}

/**
 * What the ticket prints of site water, in gallons; it is never worked out by us. All water after batching counts against
 * it, that in transit too. Inside only where all the water is known; of water that nobody logged nothing follows.
 */
export type Allowance =
  | {
      readonly is: 'given'
      readonly allowed: Ratio
      /** Undefined where none was logged, or somebody is not sure of all there was. */
      readonly added: Ratio | undefined
      /** Somebody is not sure of a further amount: `added`, and `over` with it, are the least that they can be. */
      readonly atLeast: boolean
      /** Zero where no more was added than allowed; undefined where that isn't known. */
      readonly over: Ratio | undefined
      readonly verdict: Exclude<Verdict, 'limit-not-stated'>
      readonly lastPart: LastPart | undefined
    }
  | { readonly is: 'not-stated' }
  | { readonly is: 'not-recorded' }

/** Water that went in after discharge began, for the part that it reached: its gallons per yard, and over its share. */
export type LastPart = {
  readonly gallonsPerYard: Ratio
  readonly over: Ratio
  /** Both again for the most and the least that may still have been in the drum, where that was judged by eye. */
  readonly range: { readonly gallonsPerYard: Range; readonly over: Range } | undefined
  readonly byEye: boolean
  readonly byTimes: boolean
}

/** For each ticket that stands, so that a conflict shows both. */
export const ticketWaters = (load: LoadView): TicketWater[] =>
  load.ticket.map((ticket) => ({
    source: ticket.hash,
    allowance: allowanceOf(load, ticket),
    ratios: ratiosOf(load, ticket.value),
    maxRatio:
      ticket.value.maxWaterCement?.is === 'given' ? numberOf(ticket.value.maxWaterCement, 'one') : undefined,
  }))

const allowanceOf = (load: LoadView, { value: ticket }: Said<Ticket>): Allowance => {
  const { allowance } = ticket
  if (allowance === undefined) return { is: 'not-recorded' }
  if (allowance.is === 'not-stated') return { is: 'not-stated' }
  const allowed = (allowance.is === 'none' ? undefined : numberOf(allowance, 'gal')) ?? ZERO
  const water = waterFigure(load)
  const added = water.is === 'given' ? water.gallons : water.is === 'none' ? ZERO : undefined
  const atLeast = water.is === 'given' && water.alsoNotSure
  const over = added && overOf(added, allowed)
  const isOver = over !== undefined && compare(over, ZERO) > 0
  return {
    is: 'given',
    allowed,
    added,
    atLeast,
    over: atLeast && !isOver ? undefined : over,
    verdict: isOver ? 'outside' : over === undefined || atLeast ? 'not-recorded' : 'inside',
    lastPart: lastPartOf(load, ticket, allowed),
  }
}

const lastPartOf = (load: LoadView, ticket: Ticket, allowed: Ratio): LastPart | undefined => {
  const yards = yardsOf(ticket)
  const drum = yards && drumOf(load, yards)
  const stages = partedWater(load)
  if (!yards || !drum || !stages) return undefined
  const had = over(plus(stages.before, stages.inTransit), yards)
  const perYard = (inDrum: Ratio) => plus(had, over(stages.afterBegan, inDrum))
  const overShare = (inDrum: Ratio) => {
    const share = times(minus(over(allowed, yards), had), inDrum)
    return overOf(stages.afterBegan, compare(share, ZERO) > 0 ? share : ZERO)
  }
  const { least, most } = drum.ends ?? {}
  return {
    gallonsPerYard: perYard(drum.yards),
    over: overShare(drum.yards),
    range:
      least && most
        ? {
            gallonsPerYard: [perYard(most), perYard(least)],
            over: ascending(overShare(most), overShare(least)),
          }
        : undefined,
    byEye: drum.byEye,
    byTimes: isByTimes(stages),
  }
}

/**
 * Ratios of the parts of a load, only where its ticket gives what that needs: yards, batched water and cementitious
 * content. Units: gallons, yd³, lb/yd³ → masses by mass. Of water that nobody logged, or is not sure of, nothing follows
 * but what was batched; where it isn't known when some went in, nothing but the whole on average.
 */
const ratiosOf = (load: LoadView, ticket: Ticket): PartRatio[] => {
  const basis = basisOf(ticket)
  if (!basis) return []
  const { yards, batched, cement } = basis
  const of = (part: PartRatio['part'], gallonsPerYard: Ratio, rest: Partial<PartRatio> = {}): PartRatio => ({
    part,
    ratio: ratioFromGallons(gallonsPerYard, cement, WATER_WEIGHT),
    range: undefined,
    byEye: false,
    byTimes: false,
    ...rest,
  })
  const asBatched = of('batched', over(batched, yards))
  const water = waterFigure(load)
  if (water.is === 'not-recorded' || water.is === 'not-sure') return [asBatched]
  if (water.is === 'given' && water.alsoNotSure) return [asBatched]
  const added = water.is === 'given' ? water.gallons : ZERO
  const whole = of('whole', over(plus(batched, added), yards))
  const stages = partedWater(load)
  if (!stages || compare(stages.afterBegan, ZERO) === 0) return [asBatched, whole]
  const perYard = over(plus(batched, plus(stages.before, stages.inTransit)), yards)
  const byTimes = isByTimes(stages)
  const first = of('first', perYard, { byTimes })
  const drum = drumOf(load, yards)
  if (!drum) return [asBatched, first, whole]
  const last = (inDrum: Ratio) => of('last', plus(perYard, over(stages.afterBegan, inDrum)))
  const range = drum.ends && ([last(drum.ends.most).ratio, last(drum.ends.least).ratio] as const)
  return [asBatched, first, { ...last(drum.yards), range, byEye: drum.byEye, byTimes }, whole]
}

/** The water by its parts, where it is all known when each went in. */
const partedWater = (load: LoadView): WaterByStage | undefined => {
  if (load.water.some((s) => s.value.amount.is === 'not-sure')) return undefined
  const stages = waterByStage(load)
  return compare(stages.notSaid, ZERO) > 0 ? undefined : stages
}

const isByTimes = ({ byTimes }: WaterByStage): boolean =>
  compare(plus(byTimes.before, byTimes.afterBegan), ZERO) > 0

const basisOf = (ticket: Ticket): { yards: Ratio; batched: Ratio; cement: Ratio } | undefined => {
  const { batchedWater, cementitious } = ticket
  if (batchedWater?.is !== 'given' || cementitious?.is !== 'given') return undefined
  const y = yardsOf(ticket)
  const b = numberOf(batchedWater, 'gal')
  const c = positive(numberOf(cementitious, 'lb/yd3'))
  return y && b && c && { yards: y, batched: b, cement: c }
}

const ZERO = ratio(0n)
const ascending = (a: Ratio, b: Ratio): Range => (compare(a, b) <= 0 ? [a, b] : [b, a])
const overOf = (added: Ratio, allowed: Ratio): Ratio => {
  const more = minus(added, allowed)
  return compare(more, ZERO) > 0 ? more : ZERO
}
