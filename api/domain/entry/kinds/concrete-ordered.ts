import * as z from 'zod/mini'
import { fieldFacts, quantity } from '../fields.ts'
import { kind } from '../kind.ts'

const yards = quantity('yd3', 'm3')
fieldFacts.add(yards, { label: 'ordered', unit: 'yd3', step: '1/4', plain: ['1/4', '200'] })

/** What was asked of the supplier for this job. A further order is a further entry: they add up. */
export const concreteOrdered = kind({ thread: 'job', maker: 'person' }, z.strictObject({ yards }))
