import * as z from 'zod/mini'
import { fieldFacts, quantity, uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

const side = quantity('ft', 'in', 'm', 'mm')
const thickness = quantity('in', 'ft', 'mm', 'm')
fieldFacts.add(side, { label: 'side', unit: 'ft', step: '1/2', plain: ['1', '200'] })
fieldFacts.add(thickness, { label: 'thickness', unit: 'in', step: '1/2', plain: ['3', '12'] })

/** A rectangle of a slab as formed. */
const part = z.strictObject({ part: uuid, name: words(60), length: side, width: side, thickness })

/** One continuous act of placing, and the parts of the site that it fills. */
export const placementPlanned = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    placement: uuid,
    name: words(60),
    parts: z.array(part).check(z.minLength(1), z.maxLength(20)),
  }),
)
