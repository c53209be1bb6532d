import { compare, inUnit, minus, over, plus, type Quantity, type Ratio, ratio, sum, times } from '../units.ts'
import type { LoadView, Said, Ticket, WaterAddition } from './view.ts'

/**
 * Pounds of water in a US gallon, as the trade reckons it and the record prints it. Source: common practice, no source
 * (water weighs 8.345 lb/gal at 4 °C, 8.33 at 16 °C).
 */
export const WATER_LB_PER_GALLON = ratio(834n, 100n)

/** Gallons added on site, by when they went in. */
export type WaterByStage = {
  readonly before: Ratio
  readonly afterBegan: Ratio
  readonly inTransit: Ratio
  readonly notSaid: Ratio
}

/**
 * Water–cement ratio of a part of a load, by mass. Batched: as the ticket has it, before any water on site; first and
 * last: what was discharged before and after the water that went in once discharge had begun; whole: on average.
 */
export type PartRatio = {
  readonly part: 'batched' | 'first' | 'last' | 'whole'
  readonly ratio: Ratio
  /** For the most and the least that may still have been in the drum, where that was judged by eye. */
  readonly range: readonly [Ratio, Ratio] | undefined
  readonly byEye: boolean
}

/** What one ticket gives about the water of its load, beside what was added. */
export type TicketWater = {
  /** Hash of the ticket's entry. */
  readonly source: string
  readonly allowance: Allowance
  readonly ratios: readonly PartRatio[]
  readonly maxRatio: Ratio | undefined
}

/** What the ticket prints of site water, in gallons; it is never worked out by us. */
export type Allowance =
  | {
      readonly is: 'given'
      readonly allowed: Ratio
      readonly added: Ratio
      /** Zero where no more was added than allowed. */
      readonly over: Ratio
      readonly lastPart: LastPart | undefined
    }
  | { readonly is: 'not-stated' | 'not-recorded' }

/** Water that went in after discharge began, for the part that it reached: its gallons per yard, and over its share. */
export type LastPart = { readonly gallonsPerYard: Ratio; readonly over: Ratio; readonly byEye: boolean }

export const waterByStage = (load: LoadView): WaterByStage => {
  const of = (stage: WaterAddition['stage']) =>
    sum(load.water.filter((s) => s.value.stage === stage).map(gallonsOf))
  return {
    before: of('before-discharge'),
    afterBegan: of('after-discharge-began'),
    inTransit: of('in-transit'),
    notSaid: of(undefined),
  }
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

const gallonsOf = ({ value }: { value: WaterAddition }): Ratio =>
  (value.amount.is === 'given' ? numberOf(value.amount, 'gal') : undefined) ?? ZERO

const allowanceOf = (load: LoadView, { value: ticket }: Said<Ticket>): Allowance => {
  const { allowance } = ticket
  if (allowance === undefined) return { is: 'not-recorded' }
  if (allowance.is === 'not-stated') return { is: 'not-stated' }
  const allowed = (allowance.is === 'none' ? undefined : numberOf(allowance, 'gal')) ?? ZERO
  const added = sum(load.water.map(gallonsOf))
  return {
    is: 'given',
    allowed,
    added,
    over: overOf(added, allowed),
    lastPart: lastPartOf(load, ticket, allowed),
  }
}

const lastPartOf = (load: LoadView, ticket: Ticket, allowed: Ratio): LastPart | undefined => {
  const yards = ticket.yards.is === 'given' ? positive(numberOf(ticket.yards, 'yd3')) : undefined
  const drum = drumOf(load)
  if (!yards || !drum) return undefined
  const stages = waterByStage(load)
  const had = over(earlierWater(stages), yards)
  const share = times(minus(over(allowed, yards), had), drum.yards)
  return {
    gallonsPerYard: plus(had, over(stages.afterBegan, drum.yards)),
    over: overOf(stages.afterBegan, compare(share, ZERO) > 0 ? share : ZERO),
    byEye: drum.byEye,
  }
}

/**
 * Ratios of the parts of a load, only where its ticket gives what that needs: yards, batched water and cementitious
 * content. Units: gallons, yd³, lb/yd³ → masses by mass.
 */
const ratiosOf = (load: LoadView, ticket: Ticket): PartRatio[] => {
  const basis = basisOf(ticket)
  if (!basis) return []
  const { yards, batched, cement } = basis
  const of = (part: PartRatio['part'], gallonsPerYard: Ratio, rest: Partial<PartRatio> = {}): PartRatio => ({
    part,
    ratio: over(times(gallonsPerYard, WATER_LB_PER_GALLON), cement),
    range: undefined,
    byEye: false,
    ...rest,
  })
  const asBatched = of('batched', over(batched, yards))
  // Of water that nobody logged, or is not sure of, nothing follows.
  if (load.water.length === 0 || load.water.some((s) => s.value.amount.is === 'not-sure')) return [asBatched]
  const stages = waterByStage(load)
  const perYard = over(plus(batched, earlierWater(stages)), yards)
  const whole = of('whole', plus(perYard, over(stages.afterBegan, yards)))
  if (compare(stages.afterBegan, ZERO) === 0) return [asBatched, whole]
  const first = of('first', perYard)
  const drum = drumOf(load)
  if (!drum) return [asBatched, first, whole]
  const last = (inDrum: Ratio) => of('last', plus(perYard, over(stages.afterBegan, inDrum)))
  const range = drum.ends && ([last(drum.ends[1]).ratio, last(drum.ends[0]).ratio] as const)
  return [asBatched, first, { ...last(drum.yards), range, byEye: drum.byEye }, whole]
}

const earlierWater = ({ before, inTransit, notSaid }: WaterByStage): Ratio =>
  plus(plus(before, inTransit), notSaid)

type InDrum = {
  readonly yards: Ratio
  readonly byEye: boolean
  readonly ends: readonly [Ratio, Ratio] | undefined
}

/** What was still in the drum at the one addition after discharge began; undefined where there were several or nobody said. */
const drumOf = (load: LoadView): InDrum | undefined => {
  const after = load.water.filter(
    (s) => s.value.stage === 'after-discharge-began' && compare(gallonsOf(s), ZERO) > 0,
  )
  const said = after.length === 1 ? after[0]!.value.inDrum : undefined
  const yards = said && positive(numberOf(said.yards, 'yd3'))
  if (!said || !yards) return undefined
  const from = said.from && positive(numberOf(said.from, 'yd3'))
  const to = said.to && positive(numberOf(said.to, 'yd3'))
  return {
    yards,
    byEye: said.how === 'by-eye',
    ends: from && to && ([from, to].sort(compare) as [Ratio, Ratio]),
  }
}

const basisOf = (ticket: Ticket): { yards: Ratio; batched: Ratio; cement: Ratio } | undefined => {
  const { yards, batchedWater, cementitious } = ticket
  if (yards.is !== 'given' || batchedWater?.is !== 'given' || cementitious?.is !== 'given') return undefined
  const y = positive(numberOf(yards, 'yd3'))
  const b = numberOf(batchedWater, 'gal')
  const c = positive(numberOf(cementitious, 'lb/yd3'))
  return y && b && c && { yards: y, batched: b, cement: c }
}

const ZERO = ratio(0n)
const numberOf = (quantity: Quantity, unit: Quantity['unit']): Ratio | undefined => {
  const number = inUnit(quantity, unit)
  return number.ok ? number.value : undefined
}
const positive = (number: Ratio | undefined): Ratio | undefined =>
  number && compare(number, ZERO) > 0 ? number : undefined
const overOf = (added: Ratio, allowed: Ratio): Ratio => {
  const more = minus(added, allowed)
  return compare(more, ZERO) > 0 ? more : ZERO
}
