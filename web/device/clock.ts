import { type LocalTime, toLocalTime } from '../../api/domain/time.ts'
import type { Mono, Now } from '../../api/domain/world.ts'

/** The one place of the phone that asks what time it is. */
export type Clock = { readonly now: Now; readonly mono: Mono; readonly localTime: () => LocalTime }

export const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC'

export const makeClock = (): Clock => ({
  now: () => Date.now(),
  mono: () => performance.now(),
  // The zone is asked anew each time: a phone may be carried, or set right, while the app is open.
  localTime: () => toLocalTime(Date.now(), deviceZone()),
})
