import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The first concrete that stays left the chute. */
export const dischargeStarted = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid }))
