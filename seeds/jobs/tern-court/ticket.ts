import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { given } from '../../step.ts'
import { local } from './site.ts'

const words = (text: string) => ({ is: 'given', text }) as const
const time = (clock: string) => ({ is: 'given', at: local(clock) }) as const
const notStated = { is: 'not-stated' } as const

/** What one of these tickets prints apart from what all three do. */
export type Printed = {
  readonly load: string
  readonly number: string
  readonly truck: string
  readonly driver: string
  readonly loadOfDay: string
  readonly yards: string
  readonly ordered: string
  readonly delivered: string
  readonly batched: string
  readonly printed: string
  readonly leftPlant: string
  readonly batchedWater: string
  readonly mayAdd: string
}

/** A ticket of Quillback Ready-Mix, Plant 2, as it was typed off the paper. */
export const ticketOf = (p: Printed): BodyOf<'ticket.recorded'> => ({
  load: p.load,
  number: words(p.number),
  truck: words(p.truck),
  yards: given(p.yards, 'yd3'),
  batchedAt: time(p.batched),
  limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
  producer: words('Quillback Ready-Mix'),
  plant: words('Plant 2'),
  driver: words(p.driver),
  order: words('3306'),
  loadOfDay: words(p.loadOfDay),
  ordered: given(p.ordered, 'yd3'),
  delivered: given(p.delivered, 'yd3'),
  mix: words('QB-45A'),
  strength: given('4500', 'psi'),
  air: { is: 'given', from: given('5', 'pct'), to: given('8', 'pct') },
  slump: { is: 'target', target: given('4.00', 'in') },
  stone: given('3/4', 'in'),
  printedAt: time(p.printed),
  leftPlantAt: time(p.leftPlant),
  batchedWater: given(p.batchedWater, 'gal'),
  allowance: given(p.mayAdd, 'gal'),
  cementitious: given('580', 'lb/yd3'),
  maxWaterCement: given('0.45', 'one'),
  admixtures: notStated,
  fibre: notStated,
  revolutions: notStated,
})
