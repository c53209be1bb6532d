import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The crew could have taken the concrete; whose delay it was before turns on this. */
export const crewReady = kind({ thread: 'job', maker: 'person', since: 2 }, z.strictObject({ load: uuid }))
