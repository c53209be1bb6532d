import { minutesBetween } from '../time.ts'

/** Whole minutes between two events; several where several answers stand to either. */
export type Minutes = {
  readonly minutes: readonly number[]
  /** Set where an end comes before its beginning: flagged, never refused. */
  readonly backwards: boolean
}

/** Minutes for each pair of answers that stand. */
export const minutesOf = (from: readonly string[], to: readonly string[]): Minutes => {
  const all = from.flatMap((a) =>
    to.map((b) => minutesBetween(a, b)).filter((m): m is number => m !== undefined),
  )
  const minutes = [...new Set(all)].sort((a, b) => a - b)
  return { minutes, backwards: minutes.some((m) => m < 0) }
}
