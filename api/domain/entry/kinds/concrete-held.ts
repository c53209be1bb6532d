import * as z from 'zod/mini'
import { fieldFacts, quantity } from '../fields.ts'
import { kind } from '../kind.ts'

const yards = quantity('yd3', 'm3')
fieldFacts.add(yards, { label: 'held', unit: 'yd3', step: '1/4', plain: ['1/4', '50'] })

/** What the plant was asked to keep ready without sending it. */
export const concreteHeld = kind({ thread: 'job', maker: 'person', since: 2 }, z.strictObject({ yards }))
