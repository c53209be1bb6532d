import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The last of the load left the chute: the event that most tickets' limits run to. */
export const dischargeEnded = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid }))
