import * as z from 'zod/mini'
import { fieldFacts, words } from '../fields.ts'
import { kind } from '../kind.ts'

const address = words(200)
fieldFacts.add(address, { label: 'address', personal: true })

/** Where the site is, in words. Personal: an entry of its own. */
export const siteAddressed = kind({ thread: 'job', maker: 'person', since: 2 }, z.strictObject({ address }))
