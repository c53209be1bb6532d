import * as z from 'zod/mini'
import { words, zoneName } from '../fields.ts'
import { kind } from '../kind.ts'

/** A job under the name that the crew use for it; its zone is that of the site. */
export const jobOpened = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({ name: words(120), zone: zoneName }),
)
