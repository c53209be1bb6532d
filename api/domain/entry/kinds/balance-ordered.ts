import * as z from 'zod/mini'
import { fieldFacts, quantity } from '../fields.ts'
import { kind } from '../kind.ts'

const yards = quantity('yd3', 'm3')
const needed = quantity('yd3', 'm3')
fieldFacts.add(yards, { label: 'balance', unit: 'yd3', step: '1/4', plain: ['1/4', '12'] })
fieldFacts.add(needed, { label: 'stillNeeded', unit: 'yd3', step: '1/4', plain: ['1/4', '12'] })

/** The last part load, called for once it was measured what is left to fill. It adds to what was ordered. */
export const balanceOrdered = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ yards, needed: z.optional(needed), how: z.optional(z.enum(['measured', 'by-eye'])) }),
)
