import { compare, inUnit, type Quantity, type Ratio, ratio } from '../units.ts'
import type { LoadView, Ticket } from './view.ts'
import { isSome, stageOf } from './water.ts'

/** Cubic yards; the ends where somebody gave a range. */
export type InDrum = {
  readonly yards: Ratio
  readonly byEye: boolean
  readonly ends: { readonly least: Ratio; readonly most: Ratio } | undefined
}

const afterBegan = (load: LoadView) =>
  load.water.filter(
    (addition) => isSome(addition) && stageOf(addition, load)?.stage === 'after-discharge-began',
  )

/**
 * What was still in the drum at the one addition after discharge began; undefined where there were several, nobody said, or
 * what was said can't be: more than the ticket's yards, or a figure outside its own range.
 */
export const drumOf = (load: LoadView, ticketed: Ratio): InDrum | undefined => {
  const after = afterBegan(load)
  const said = after.length === 1 ? after[0]!.value.inDrum : undefined
  const yards = said && positive(numberOf(said.yards, 'yd3'))
  if (!said || !yards) return undefined
  const from = said.from ? positive(numberOf(said.from, 'yd3')) : undefined
  const to = said.to ? positive(numberOf(said.to, 'yd3')) : undefined
  const inOrder = [...(from ? [from] : []), yards, ...(to ? [to] : []), ticketed]
  if (inOrder.some((next, i) => i > 0 && compare(inOrder[i - 1]!, next) > 0)) return undefined
  return { yards, byEye: said.how === 'by-eye', ends: from && to && { least: from, most: to } }
}

/** What was said to be in the drum can't be: by every ticket's yards, or by its own range. */
export const isDrumOdd = (load: LoadView): boolean =>
  load.ticket.length > 0 &&
  afterBegan(load).length === 1 &&
  afterBegan(load)[0]!.value.inDrum !== undefined &&
  load.ticket.every(({ value }) => {
    const yards = yardsOf(value)
    return yards !== undefined && drumOf(load, yards) === undefined
  })

/** What one ticket states, in yd³; undefined where it states none, or nought. */
export const yardsOf = ({ yards }: Ticket): Ratio | undefined =>
  yards.is === 'given' ? positive(numberOf(yards, 'yd3')) : undefined

export const numberOf = (quantity: Quantity, unit: Quantity['unit']): Ratio | undefined => {
  const number = inUnit(quantity, unit)
  return number.ok ? number.value : undefined
}
export const positive = (number: Ratio | undefined): Ratio | undefined =>
  number && compare(number, ratio(0n)) > 0 ? number : undefined
