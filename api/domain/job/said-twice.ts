import { minutesBetween } from '../time.ts'
import { compare, inUnit, type Quantity } from '../units.ts'
import type { HistoryLine, JobView, LoadView, Said } from './view.ts'
import { gallonsOf, isSome } from './water.ts'

/**
 * Two phones that tell of one thing make two entries, and a sum counts both. Nothing is left out of a sum for looking
 * alike: it is said that two look alike, and a person takes one back or lets both stand.
 */

/** Two phones that tell of one addition seldom do so further apart. Source: our choice. */
const ONE_TELLING_MINUTES = 10

export type EntryOf = (hash: string) => HistoryLine['entry'] | undefined

export const entriesOf = (job: JobView): EntryOf => {
  const entries = new Map(job.history.map((line) => [line.hash, line.entry]))
  return (hash) => entries.get(hash)
}

/**
 * Two additions that may be one: equal, and of one minute or by two devices within ten minutes; or of any amounts within
 * ten minutes where they were logged under two loads that were joined since.
 */
export const isWaterSaidTwice = (load: LoadView, entryOf: EntryOf): boolean =>
  anyPair(load.water.filter(isSome), (a, b) => {
    const apart = Math.abs(minutesBetween(a.at, b.at) ?? Number.POSITIVE_INFINITY)
    if (apart > ONE_TELLING_MINUTES) return false
    const [one, other] = [entryOf(a.hash), entryOf(b.hash)]
    if (loadIn(one) !== loadIn(other)) return true
    const equal = compare(gallonsOf(a), gallonsOf(b)) === 0
    return equal && (apart === 0 || one?.device !== other?.device)
  })

/** Two orders, or two balances, of as many yards by two devices. */
export const isOrderSaidTwice = (job: JobView, entryOf: EntryOf): boolean => {
  const twice = (all: readonly Said<Quantity>[]) =>
    anyPair(all, (a, b) => {
      const [one, other] = [inUnit(a.value, 'yd3'), inUnit(b.value, 'yd3')]
      const equal = one.ok && other.ok && compare(one.value, other.value) === 0
      return equal && entryOf(a.hash)?.device !== entryOf(b.hash)?.device
    })
  return twice(job.ordered) || twice(job.balance.map((s) => ({ ...s, value: s.value.yards })))
}

const anyPair = <T>(all: readonly T[], alike: (a: T, b: T) => boolean): boolean =>
  all.some((a, i) => all.slice(i + 1).some((b) => alike(a, b)))

const loadIn = (entry: HistoryLine['entry'] | undefined): unknown =>
  entry && 'load' in entry.body ? entry.body.load : undefined
