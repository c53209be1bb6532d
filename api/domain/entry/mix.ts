import * as z from 'zod/mini'
import { fieldFacts, none, notStated, quantity, words } from './fields.ts'

/** What an order or a ticket may say, or say that it doesn't: absent is that nobody recorded it (L10). */
export const stated = <S extends z.ZodMiniType>(schema: S) => z.optional(z.union([schema, notStated]))

export const givenWords = (most: number) => z.strictObject({ is: z.literal('given'), text: words(most) })

export const strength = quantity('psi', 'MPa')
fieldFacts.add(strength, { label: 'strength', unit: 'psi', step: '500', plain: ['2500', '8000'] })

export const stone = quantity('in', 'mm')

/** Air content asked for: a target, or the ends between which it may lie, or both. */
export const airAsked = z
  .strictObject({
    is: z.literal('given'),
    target: z.optional(quantity('pct')),
    from: z.optional(quantity('pct')),
    to: z.optional(quantity('pct')),
  })
  .check(
    z.refine((air) => air.target !== undefined || air.from !== undefined || air.to !== undefined, {
      path: ['target'],
    }),
  )

/**
 * Slump asked for: a target, with the tolerance if one was named, or the most that is allowed. The two are judged by
 * different rules. Source: ASTM C94/C94M-21, "Tolerances in Slump" (read second-hand).
 */
export const slumpAsked = z.union([
  z.strictObject({
    is: z.literal('target'),
    target: quantity('in', 'mm'),
    tolerance: z.optional(quantity('in', 'mm')),
  }),
  z.strictObject({ is: z.literal('most'), most: quantity('in', 'mm') }),
])

/** Minutes from batching, and the event that they run to. */
export const dischargeLimit = z.strictObject({
  is: z.literal('given'),
  text: z.string().check(z.regex(/^[1-9]\d{0,2}$/)),
  unit: z.literal('min'),
  to: z.enum(['discharge-started', 'discharge-ended']),
})

/** Water that may be added on site, for the whole load; none is an answer. */
export const siteWater = z.union([quantity('gal', 'L'), none])
