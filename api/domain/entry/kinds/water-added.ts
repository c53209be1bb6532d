import * as z from 'zod/mini'
import { fieldFacts, none, notSure, quantity, uuid } from '../fields.ts'
import { kind, widened } from '../kind.ts'
import { someone } from '../taking.ts'

const amount = z.union([quantity('gal', 'L'), none, notSure])
fieldFacts.add(amount, { label: 'water', unit: 'gal', step: '1', plain: ['0', '40'] })

const first = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid, amount }))

const inDrum = quantity('yd3', 'm3')
fieldFacts.add(inDrum, { label: 'inDrum', unit: 'yd3', step: '1/2', plain: ['0', '12'] })

/**
 * The answer to "water?", for one load: none, so much, or not sure. None is a fact; no entry is not. Water after discharge has
 * begun is another fact than water before it; asked for is not added.
 */
export const waterAdded = widened(
  first,
  2,
  z.strictObject({
    load: uuid,
    amount,
    stage: z.optional(z.enum(['before-discharge', 'after-discharge-began', 'in-transit'])),
    inDrum: z.optional(
      z.strictObject({
        yards: inDrum,
        how: z.enum(['measured', 'by-eye']),
        from: z.optional(inDrum),
        to: z.optional(inDrum),
      }),
    ),
    asked: z.optional(someone),
    added: z.optional(someone),
    mixed: z.optional(quantity('min')),
  }),
)
