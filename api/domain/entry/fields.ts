import * as z from 'zod/mini'
import { readBase64 } from '../log/encoding.ts'
import { isZone, LOCAL_TIME, readLocalTime } from '../time.ts'
import { QUANTITY_TEXT, SIGNED_TEXT, UNITS, type Unit } from '../units.ts'
import type { LabelKey } from '../words/labels.ts'

/** What screens, paper and the checker need to know of a field beyond its shape. */
export type FieldFacts = {
  readonly label: LabelKey
  readonly unit?: Unit
  /** The step of its picker, in `unit`, as text so that it stays exact. */
  readonly step?: string
  /** The range outside which a person is asked again, in `unit`. Nothing is refused for being outside. */
  readonly plain?: readonly [string, string]
  /** Prices, surnames, phone numbers, exact coordinates: never on the homeowner's page. */
  readonly personal?: true
}

/** One registry for phone, server and checker: each field's facts, found by its schema. */
export const fieldFacts = z.registry<FieldFacts>()

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/
const UUID_V7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/

export const uuid = z.string().check(z.regex(UUID))
export const uuidV7 = z.string().check(z.regex(UUID_V7))
export const hash = z.string().check(z.regex(/^[0-9a-f]{64}$/))
export const localTime = z.string().check(
  z.regex(LOCAL_TIME),
  z.refine((text) => readLocalTime(text) !== undefined),
)
/** A name, not an offset or a whole time: Temporal reads those as zones too. */
export const zoneName = z
  .string()
  .check(z.maxLength(64), z.regex(/^[A-Za-z][A-Za-z0-9_+/-]*$/), z.refine(isZone))
export const languageTag = z.string().check(z.regex(/^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8}){0,3}$/))
export const count = z.int().check(z.gte(0))
export const publicKey = z.string().check(
  z.maxLength(44),
  z.refine((text) => readBase64(text)?.length === 32),
)

/** Words that a person wrote or said, of 1 to `most` characters, none of them a control character but a line's end. */
export const words = (most: number) =>
  z.string().check(
    z.minLength(1),
    z.maxLength(most),
    // Half a character has no bytes of its own, so no entry can hold it.
    z.refine((text) => text.isWellFormed() && !/[^\P{Cc}\n]/u.test(text)),
  )

export const spoken = (most: number) => z.strictObject({ lang: languageTag, text: words(most) })

/** A quantity as entered, in one of the units that this field is asked in. */
export const quantity = <U extends Unit>(...units: readonly [U, ...U[]]) =>
  z.strictObject({
    is: z.literal('given'),
    text: z.string().check(z.regex(QUANTITY_TEXT)),
    unit: z.enum(units),
  })

/** A quantity that may lie below zero. */
export const signedQuantity = <U extends Unit>(...units: readonly [U, ...U[]]) =>
  z.strictObject({
    is: z.literal('given'),
    text: z.string().check(z.regex(SIGNED_TEXT)),
    unit: z.enum(units),
  })

export const givenText = (pattern: RegExp) =>
  z.strictObject({ is: z.literal('given'), text: z.string().check(z.regex(pattern)) })
export const givenTime = z.strictObject({ is: z.literal('given'), at: localTime })

/** None, not taken, not stated and not sure are four things; not recorded is that there is no entry (L10). */
export const none = z.strictObject({ is: z.literal('none') })
export const notTaken = z.strictObject({ is: z.literal('not-taken') })
export const notStated = z.strictObject({ is: z.literal('not-stated') })
export const notSure = z.strictObject({ is: z.literal('not-sure') })

export const unit = z.enum(UNITS)
