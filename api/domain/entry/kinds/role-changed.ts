import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'
import { role } from '../role.ts'

export const roleChanged = kind(
  { thread: 'company', maker: 'person' },
  z.strictObject({ person: uuid, role }),
)
