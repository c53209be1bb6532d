import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The truck left the job. */
export const loadLeft = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid }))
