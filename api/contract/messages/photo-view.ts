import * as z from 'zod/mini'

/**
 * What a photo's file says of itself, as answered by `…/facts`. Each fact is given, absent, or there but unreadable;
 * `wrote` is the text that made no sense. Never one for the other: a time without offset is no UTC.
 */
const fact = <T extends z.ZodMiniType>(value: T) =>
  z.discriminatedUnion('is', [
    z.strictObject({ is: z.literal('given'), value }),
    z.strictObject({ is: z.literal('absent') }),
    z.strictObject({ is: z.literal('unreadable'), wrote: z.optional(z.string()) }),
  ])

export const photoTime = z.strictObject({
  /** `2026-07-14T09:05:30.250`: the camera's clock as written, in its own zone; digits of a second as written. */
  local: fact(z.string()),
  /** The digits after the second's point. */
  subSec: fact(z.string()),
  /** `-05:00`. Absent means that the zone is unknown. */
  offset: fact(z.string()),
  /** `2026-07-14T14:05:30.250Z`; given only where the file gives the offset. */
  utc: fact(z.string()),
})

export const photoFacts = z.strictObject({
  time: photoTime,
  /** 1–8 as EXIF counts them: how the picture has to be turned to stand upright. */
  orientation: fact(z.int()),
  make: fact(z.string()),
  model: fact(z.string()),
})

/** Exact and personal: kept apart, so that nobody who shows the facts shows the place by accident. */
export const photoPosition = z.strictObject({
  /** Degrees, north and east positive, to a hundred millionth. */
  place: fact(z.strictObject({ latitude: z.number(), longitude: z.number() })),
  /** Metres above sea level. */
  altitudeM: fact(z.number()),
})

const size = z.strictObject({ width: z.int(), height: z.int(), bytes: z.int() })

/** What became of the renditions. A failure is kept: the same file would fail again. */
export const photoDrawing = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('drawn'), small: size, large: size }),
  /** A kind of file that this server has no decoder for. */
  z.strictObject({ is: z.literal('cannot-draw'), kind: z.literal('image/heic') }),
  z.strictObject({
    is: z.literal('failed'),
    why: z.enum(['too-many-pixels', 'damaged', 'crashed', 'time', 'memory']),
    /** The size that the header claims, and how long it took to refuse it. */
    width: z.optional(z.int()),
    height: z.optional(z.int()),
    refusedMs: z.optional(z.number()),
  }),
])

export const photoView = z.strictObject({
  /** Of what made it: another version reads the original anew. */
  version: z.int(),
  facts: photoFacts,
  drawing: photoDrawing,
})

export const photoFactsAnswer = z.extend(photoView, { position: photoPosition })

export type Fact<T> =
  | { readonly is: 'given'; readonly value: T }
  | { readonly is: 'absent' }
  | { readonly is: 'unreadable'; readonly wrote?: string | undefined }
export type PhotoTime = z.infer<typeof photoTime>
export type PhotoFacts = z.infer<typeof photoFacts>
export type PhotoPosition = z.infer<typeof photoPosition>
export type PhotoDrawing = z.infer<typeof photoDrawing>
export type PhotoView = z.infer<typeof photoView>
