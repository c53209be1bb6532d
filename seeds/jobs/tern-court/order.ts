import { given } from '../../step.ts'
import { COMPANY } from './crew.ts'
import { PARTS, PLACEMENT, type TernStep, ZONE } from './site.ts'

const AT = '2026-04-16 19:20'

/** What was planned and asked for, five days before, at the office table. */
export const ORDER: readonly TernStep[] = [
  { on: 'office', at: AT, kind: 'job.opened', body: { name: 'Tern Court', zone: ZONE } },
  { on: 'office', at: AT, kind: 'customer.named', body: { name: 'Nora and Dell Pellowick' } },
  { on: 'office', at: AT, kind: 'site.addressed', body: { address: '418 Tern Court, Wenmark' } },
  {
    on: 'office',
    at: AT,
    kind: 'placement.planned',
    body: { placement: PLACEMENT, name: 'Drive, walk, landing and patio', parts: PARTS },
  },
  {
    on: 'office',
    at: '2026-04-17 08:05',
    kind: 'mix.ordered',
    body: {
      code: 'QB-45A',
      strength: given('4500', 'psi'),
      air: { is: 'given', target: given('6.5', 'pct'), from: given('5', 'pct'), to: given('8', 'pct') },
      slump: { is: 'target', target: given('4', 'in'), tolerance: given('1', 'in') },
      maxWaterCement: given('0.45', 'one'),
      stone: given('3/4', 'in'),
      mayAddWater: `Curt, for ${COMPANY}`,
      mayWaive: `Curt, for ${COMPANY}`,
    },
  },
  {
    on: 'office',
    at: '2026-04-17 08:05',
    kind: 'concrete.ordered',
    body: { yards: given('16', 'yd3') },
  },
  {
    on: 'office',
    at: '2026-04-17 08:06',
    kind: 'delivery.promised',
    body: { at: '2026-04-21T07:30-05:00', spacing: given('60', 'min') },
  },
]
