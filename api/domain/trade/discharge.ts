import { fail, ok, type Result } from '../result.ts'
import { type LocalTime, readLocalTime } from '../time.ts'
import { type Input, offRange, type TradeProblem } from './asked.ts'
import { compareTo, type Finding, overall, type Verdict } from './finding.ts'
import { type Duration, exactly, type Measure, type Plain, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { SourceId } from './sources.ts'

/** The event that a limit runs to. It is the limit’s own: a limit to the start says nothing of the end. */
export type LimitEvent = 'discharge-started' | 'discharge-ended'

/**
 * Whose limit holds. C94-21: what the ticket or the order states, and nothing where neither does (the default).
 * C94-13: 90 minutes, no revolutions. C94-98: 90 minutes or 300 revolutions, whichever comes first. An older rule holds
 * only where somebody chose it.
 */
export type DischargeRule = 'C94-21' | 'C94-13' | 'C94-98'
export const DISCHARGE_RULE: DischargeRule = 'C94-21'

/** The older editions’ own limits. Source: ASTM C94-98 §10.7; ASCC position paper 32. */
export const OWN_LIMITS = {
  'C94-13': { minutes: exactly('90', 'min'), revolutions: undefined, source: 'c94-13' },
  'C94-98': { minutes: exactly('90', 'min'), revolutions: exactly('300', 'one'), source: 'c94-98' },
} as const

/** A waiver that was said: by whom and when. It changes no figure; it stands beside it. */
export type Waiver = {
  readonly by: string
  /** Undefined where nobody recorded when. */
  readonly at: LocalTime | undefined
  /** The older and the newer editions let a purchaser waive while it can be placed with no more water. */
  readonly placeableWithoutWater: boolean | undefined
}

export type DischargeFinding = {
  readonly rule: DischargeRule
  readonly event: LimitEvent
  readonly minutes: Finding<'min'>
  /** Only where a limit of revolutions holds, or somebody read them. */
  readonly revolutions: Finding<'one'> | undefined
  readonly verdict: Verdict
  readonly waiver: Waiver | undefined
  /** Whether the waiver is one that the standard lets the purchaser give; undefined where that isn’t known. */
  readonly waivable: boolean | undefined
}

/**
 * Minutes from batching to the limit’s event, and drum revolutions where the ticket has them, against the limit that
 * the chosen rule gives. A stated limit, which may be shorter, goes before an older edition’s own.
 * Units: any times → minutes; counts. Fails: `missing` (no minutes at all), `out-of-range`, `time-unreadable` (of a waiver).
 * Source: ASTM C94-21 §6.1.10, §12.9; C94-98 §10.7; ASCC position paper 32. The waiver: the same clauses.
 */
export const dischargeFinding = (of: {
  readonly rule?: DischargeRule
  readonly event: LimitEvent
  readonly elapsed: Input<Duration>
  readonly revolutions?: Input<Plain>
  readonly stated?: {
    readonly minutes?: Duration
    readonly revolutions?: Plain
    readonly by: 'ticket' | 'order'
  }
  readonly waiver?: Waiver
}): Result<DischargeFinding, TradeProblem | 'time-unreadable'> => {
  const rule = of.rule ?? DISCHARGE_RULE
  const { stated, elapsed, revolutions } = of
  const off =
    offRange('/elapsed', elapsed, RANGES.minutes) ??
    (revolutions && offRange('/revolutions', revolutions, RANGES.revolutions)) ??
    (stated?.minutes && offRange('/stated/minutes', stated.minutes, RANGES.limitMinutes)) ??
    (stated?.revolutions && offRange('/stated/revolutions', stated.revolutions, RANGES.revolutions))
  if (off || !elapsed) return off ?? fail('missing', '/elapsed')
  const waivedAt = of.waiver?.at
  if (waivedAt !== undefined && readLocalTime(waivedAt) === undefined)
    return fail('time-unreadable', '/waiver/at', { text: waivedAt })
  const own = rule === 'C94-21' ? undefined : OWN_LIMITS[rule]
  const limitOf = <U extends 'min' | 'one'>(said: Measure<U> | undefined, owned: Measure<U> | undefined) => {
    if (said) return { most: said, source: (stated?.by ?? 'ticket') as SourceId }
    return owned && own ? { most: owned, source: own.source as SourceId } : undefined
  }
  const saidMinutes = stated?.minutes && toUnit(stated.minutes, 'min')
  const minutes = compareTo('minutes', toUnit(elapsed, 'min'), limitOf(saidMinutes, own?.minutes))
  const turnsLimit = limitOf(stated?.revolutions, own?.revolutions)
  const turns = turnsLimit || revolutions ? compareTo('revolutions', revolutions, turnsLimit) : undefined
  return ok({
    rule,
    event: of.event,
    minutes,
    revolutions: turns,
    verdict: verdictOf(minutes, turns),
    waiver: of.waiver,
    waivable: of.waiver?.placeableWithoutWater,
  })
}

/** Revolutions that nobody read, or nobody limits, leave the minutes as they are: few tickets print the count. */
const verdictOf = (minutes: Finding, turns: Finding | undefined): Verdict =>
  turns && (turns.verdict === 'inside' || turns.verdict === 'outside')
    ? overall([minutes, turns])
    : minutes.verdict
