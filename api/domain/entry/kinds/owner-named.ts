import * as z from 'zod/mini'
import { uuid, words } from '../fields.ts'
import { kind } from '../kind.ts'

/** Who set the company up: the first person, an owner. Everyone after is added by somebody who may. */
export const ownerNamed = kind(
  { thread: 'company', maker: 'server' },
  z.strictObject({ person: uuid, name: words(60) }),
)
