import * as z from 'zod/mini'
import { uuid } from '../fields.ts'
import { kind } from '../kind.ts'

/** The chute stopped with concrete still in the drum. */
export const dischargePaused = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({ load: uuid }),
)
