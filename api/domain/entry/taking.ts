import * as z from 'zod/mini'
import { localTime, uuid, words } from './fields.ts'

/** Where in the load the concrete was taken. */
export const SAMPLE_POINTS = [
  'first-portion',
  'first-third',
  'middle',
  'last-third',
  'composite',
  'chute',
  'form',
] as const

/** A person of the company by id, or anybody else by what they are called: a driver, a technician of a laboratory. */
export const someone = z.union([z.strictObject({ person: uuid }), z.strictObject({ called: words(60) })])

/**
 * How a reading came about. When it was sampled and when it gave its result are two times; who took it and for whom they
 * work are two facts. What is absent was not recorded.
 */
export const taking = z.strictObject({
  sampledAt: z.optional(localTime),
  resultAt: z.optional(localTime),
  point: z.optional(z.enum(SAMPLE_POINTS)),
  /** Against the water that was added on site. */
  water: z.optional(z.enum(['before', 'after', 'none-added'])),
  taker: z.optional(someone),
  employer: z.optional(words(80)),
  instrument: z.optional(words(80)),
  certificate: z.optional(words(60)),
})
export type Taking = z.infer<typeof taking>
