import type * as z from 'zod/mini'

/** Which thread an entry belongs to: a job's, or the company's own affairs. */
export type ThreadOf = 'job' | 'company'
/** Who may make it: a person on a device, or the server, which alone knows it. */
export type MakerOf = 'person' | 'server'

/**
 * One kind of entry: its shape in each release that changed it, and how an older body is lifted to today's.
 * Released shapes are never edited: a change adds a shape under its release and a lift.
 */
export type KindSpec<Today extends z.ZodMiniType = z.ZodMiniType> = {
  readonly thread: ThreadOf
  readonly maker: MakerOf
  /** The release (an entry's `v`) that brought the first shape. */
  readonly since: number
  readonly shapes: readonly { readonly since: number; readonly schema: z.ZodMiniType }[]
  /** lifts[i] takes a body of shapes[i] to shapes[i + 1]. */
  readonly lifts: readonly ((body: never) => unknown)[]
  readonly today: Today
}

type Place = { readonly thread: ThreadOf; readonly maker: MakerOf; readonly since?: number }

/** A kind whose first shape is still today's; of release 1 unless said otherwise. */
export const kind = <S extends z.ZodMiniType>(
  { thread, maker, since = 1 }: Place,
  schema: S,
): KindSpec<S> => ({
  thread,
  maker,
  since,
  shapes: [{ since, schema }],
  lifts: [],
  today: schema,
})

/**
 * A kind of release 1 that a later release asks more of: every older body is a body of today's shape too, since what was
 * added may be absent (not recorded).
 */
export const widened = <S extends z.ZodMiniType>(older: KindSpec, since: number, schema: S): KindSpec<S> => ({
  ...older,
  shapes: [...older.shapes, { since, schema }],
  lifts: [...older.lifts, (body) => body],
  today: schema,
})
