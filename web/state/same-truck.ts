import type { HistoryLine, LoadView } from '../../api/domain/job/view.ts'
import { readLocalTime } from '../../api/domain/time.ts'

/** Two loads that may be one truck, logged on two phones. */
export type Lookalike = { readonly first: LoadView; readonly second: LoadView }

/** Two phones that see one truck stop log it within so many minutes. Source: our choice. */
const SAME_ARRIVAL_MINUTES = 10
/** A truck that comes again has been to the plant in between. Source: our choice. */
const SAME_VISIT_MINUTES = 30

/**
 * Pairs of loads that look like one: the same ticket number; or the same truck, or arrivals logged by two devices, within
 * minutes of each other. Two ticket numbers, or two truck numbers, are two loads. It is asked, and nothing is joined by itself.
 */
export const lookalikes = (
  loads: readonly LoadView[],
  line: (hash: string) => HistoryLine | undefined,
): readonly Lookalike[] =>
  loads.flatMap((first, i) =>
    loads.slice(i + 1).flatMap((second) => (isAlike(first, second, line) ? [{ first, second }] : [])),
  )

const isAlike = (a: LoadView, b: LoadView, line: (hash: string) => HistoryLine | undefined): boolean => {
  const tickets = compared(texts(a, 'number'), texts(b, 'number'))
  if (tickets !== 'not-known') return tickets === 'same'
  const trucks = compared(texts(a, 'truck'), texts(b, 'truck'))
  if (trucks === 'different') return false
  if (trucks === 'same') return apart(firstTimes(a), firstTimes(b)) <= SAME_VISIT_MINUTES
  return apart(times(a), times(b)) <= SAME_ARRIVAL_MINUTES && !isOneDevice(a, b, line)
}

type Compared = 'same' | 'different' | 'not-known'
const compared = (a: readonly string[], b: readonly string[]): Compared => {
  if (a.length === 0 || b.length === 0) return 'not-known'
  return a.some((one) => b.includes(one)) ? 'same' : 'different'
}

const texts = (load: LoadView, of: 'number' | 'truck'): string[] =>
  load.ticket.flatMap(({ value }) => {
    const said = value[of]
    return said.is === 'given' ? [said.text.trim().toUpperCase()] : []
  })

const times = (load: LoadView): number[] => load.arrived.map((s) => readLocalTime(s.value) ?? 0)
/** When it came, else when its discharge began: of a ticket that was read at noon the time says nothing. */
const firstTimes = (load: LoadView): number[] =>
  load.arrived.length > 0 ? times(load) : load.started.map((s) => readLocalTime(s.value) ?? 0)

/** Minutes between the nearest two; no number of minutes where one side has no time. */
const apart = (a: readonly number[], b: readonly number[]): number =>
  Math.min(...a.flatMap((x) => b.map((y) => Math.abs(x - y) / 60_000)))

/** Somebody who taps twice on one phone means two trucks. */
const isOneDevice = (a: LoadView, b: LoadView, line: (hash: string) => HistoryLine | undefined): boolean => {
  const devices = (load: LoadView) => new Set(load.arrived.map((s) => line(s.hash)?.entry.device))
  const [left, right] = [devices(a), devices(b)]
  return left.size === 1 && right.size === 1 && [...left][0] === [...right][0]
}
