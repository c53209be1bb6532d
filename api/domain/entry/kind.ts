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

/** A kind whose first shape, of release 1, is still today's. */
export const kind = <S extends z.ZodMiniType>(
  place: { thread: ThreadOf; maker: MakerOf },
  schema: S,
): KindSpec<S> => ({ ...place, since: 1, shapes: [{ since: 1, schema }], lifts: [], today: schema })
