import * as z from 'zod/mini'
import { fieldFacts, words } from '../fields.ts'
import { kind } from '../kind.ts'

const name = words(120)
const phone = words(40)
fieldFacts.add(name, { label: 'customer', personal: true })
fieldFacts.add(phone, { label: 'customerPhone', personal: true })

/** Whose slab it is. Personal: an entry of its own, so that it can be withheld alone. */
export const customerNamed = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ name, phone: z.optional(phone) }),
)
