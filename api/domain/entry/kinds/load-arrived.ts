import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The wheels stopped on the job. */
export const loadArrived = kind({ thread: 'job', maker: 'person' }, z.strictObject({ load: uuid }))
