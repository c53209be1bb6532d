import * as z from 'zod/mini'
import { fieldFacts, none, notSure, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

const yards = z.union([quantity('yd3', 'm3'), none, notSure])
fieldFacts.add(yards, { label: 'leftOver', unit: 'yd3', step: '1/4', plain: ['0', '12'] })

/** What of a load was not placed, and where it went. */
export const concreteLeft = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    load: uuid,
    yards,
    how: z.enum(['measured', 'by-eye']),
    to: z.optional(z.enum(['washed-out', 'returned', 'used-elsewhere'])),
  }),
)
