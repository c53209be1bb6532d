import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** What this device pushes from now on is set aside until an owner decides. */
export const deviceWithdrawn = kind({ thread: 'company', maker: 'person' }, z.strictObject({ device: uuid }))
