import * as z from 'zod/mini'
import { fieldFacts, notTaken, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { taking } from '../taking.ts'

const flow = z.union([quantity('in', 'mm'), notTaken])
fieldFacts.add(flow, { label: 'slumpFlow', unit: 'in', step: '1/2', plain: ['15', '35'] })

/** The spread of a mix that levels itself: another test than slump. */
export const flowMeasured = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid, flow, taking: z.optional(taking) }),
)
