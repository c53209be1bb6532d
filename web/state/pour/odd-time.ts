import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { LoadView } from '../../../api/domain/job/view.ts'
import { clockOf, type LocalTime, minutesBetween } from '../../../api/domain/time.ts'
import type { Words } from '../language.ts'

/** A load that was batched so long before it came is asked about once. Source: our choice. */
const LONG_MINUTES = 180

/**
 * A batching time that is odd beside the truck's arrival, as a question; undefined where it is not, or where no arrival was
 * logged. It is only asked: a ticket's clock may be wrong, and what it prints is what it prints.
 */
export const askBatched = (
  t: Words,
  batched: LocalTime | undefined,
  load: LoadView | undefined,
): string | undefined => {
  const came = load?.arrived[0]?.value
  if (!batched || !came) return undefined
  const minutes = minutesBetween(batched, came)
  if (minutes === undefined) return undefined
  const parts = { batched: clockOf(batched), arrived: clockOf(came), minutes }
  if (minutes < 0) return t('oddBatchedAfter', parts)
  return minutes > LONG_MINUTES ? t('oddBatchedLong', parts) : undefined
}

/** The order of a load's day. Source: common practice, no source. */
const ORDER: readonly { readonly kind: Kind; readonly of: 'arrived' | 'started' | 'ended' | 'left' }[] = [
  { kind: 'load.arrived', of: 'arrived' },
  { kind: 'discharge.started', of: 'started' },
  { kind: 'discharge.ended', of: 'ended' },
  { kind: 'load.left', of: 'left' },
]

/** A moment that lies before one that comes before it, or after one that comes after it, as a question. */
export const askStamp = (
  t: Words,
  kind: Kind,
  at: LocalTime | undefined,
  load: LoadView | undefined,
): string | undefined => {
  const place = ORDER.findIndex((one) => one.kind === kind)
  if (place < 0 || !at || !load) return undefined
  const against = ORDER.some(({ of }, i) =>
    load[of].some(({ value }) => {
      const minutes = i === place ? 0 : (minutesBetween(value, at) ?? 0)
      return i < place ? minutes < 0 : minutes > 0
    }),
  )
  return against ? t('oddStampOrder', { time: clockOf(at) }) : undefined
}
