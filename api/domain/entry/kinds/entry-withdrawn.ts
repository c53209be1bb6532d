import * as z from 'zod/mini'
import { kind } from '../kind.ts'

/** Takes back what `corrects` names and says nothing in its place (L8). */
export const entryWithdrawn = kind({ thread: 'job', maker: 'person' }, z.strictObject({}))
