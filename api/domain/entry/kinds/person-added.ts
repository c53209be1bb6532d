import * as z from 'zod/mini'
import { uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'
import { role } from '../role.ts'

/** Somebody who may log or read, under the name that the crew calls them by. */
export const personAdded = kind(
  { thread: 'company', maker: 'person' },
  z.strictObject({ person: uuid, name: words(60), role }),
)
