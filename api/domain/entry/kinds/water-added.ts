import * as z from 'zod/mini'
import { fieldFacts, none, notSure, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

const amount = z.union([quantity('gal', 'L'), none, notSure])
fieldFacts.add(amount, { label: 'water', unit: 'gal', step: '1', plain: ['0', '40'] })

/** The answer to "water?", for one load: none, so much, or not sure. None is a fact; no entry is not. */
export const waterAdded = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid, amount }))
