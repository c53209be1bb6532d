import { Temporal } from 'temporal-polyfill'
import type { LocalTime } from '../api/domain/time.ts'

/** A wall clock of the scenario: it stands where it was put, but for some milliseconds that each look at it takes. */
export type ScenarioClock = { readonly now: () => number; goTo(ms: number): void }

const LOOK_MS = 1

export const createClock = (start: number): ScenarioClock => {
  let time = start
  return {
    now: () => {
      time += LOOK_MS
      return time
    },
    goTo: (ms) => {
      // Work may have taken longer than the scenario gives it; no clock steps back for that.
      time = Math.max(time, ms)
    },
  }
}

/** `2026-04-21 07:05` on the wall in this zone. Fails by exception on any other text: a scenario's mistake. */
export const momentOf = (text: string, zone: string): { readonly ms: number; readonly local: LocalTime } => {
  const zoned = Temporal.PlainDateTime.from(text.replace(' ', 'T')).toZonedDateTime(zone)
  const local = `${zoned.toPlainDateTime().toString({ smallestUnit: 'minute' })}${zoned.offset}`
  return { ms: zoned.epochMilliseconds, local }
}
