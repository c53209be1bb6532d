import { fail, ok, type Result } from '../result.ts'
import { type LocalTime, readLocalTime, toLocalTime } from '../time.ts'
import type { JointTool } from './joints.ts'
import { exactly, type Measure } from './measure.ts'
import type { SourceId } from './sources.ts'

/** Whose window: ACI FAQ 915 (the default), or CSA A23.1-94, which has one for conventional saws alone. */
export type SawRule = 'faq-915' | 'csa-a23.1-94'
export const SAW_RULE: SawRule = 'faq-915'
export type SawWeather = 'usual' | 'hot' | 'cold'

/**
 * From the end of finishing, in hours. The sources differ, and the concrete decides: a trial cut that hardly ravels.
 * `from` alone where no end is printed.
 */
export type SawWindow = {
  readonly from: Measure<'h'>
  readonly to: Measure<'h'>
  readonly rule: SawRule
  readonly source: SourceId
}

const hours = (from: string, until: string) => ({ from: exactly(from, 'h'), to: exactly(until, 'h') })
/** Source: ACI FAQ 915 (ACI 302.1R-15): 4–12 h; early entry 2–6 h, from 1 h in heat, about 4 h in cold. */
export const SAW_HOURS = {
  conventional: { usual: hours('4', '12'), hot: hours('4', '12'), cold: hours('4', '12') },
  'early-entry': { usual: hours('2', '6'), hot: hours('1', '6'), cold: hours('4', '6') },
} as const
/** Source: CSA A23.1-94 §20.2. */
const CSA_HOURS = hours('6', '18')

/**
 * The band of hours in which joints are sawn, never one time. Units: none → hours after finishing.
 * Fails: `contradiction` where CSA is asked for early entry, of which it says nothing.
 * Source: ACI FAQ 915 (ACI 302.1R-15); CSA A23.1-94 §20.2.
 */
export const sawWindow = (of: {
  readonly tool: JointTool
  readonly weather?: SawWeather
  readonly rule?: SawRule
}): Result<SawWindow, 'contradiction'> => {
  const rule = of.rule ?? SAW_RULE
  if (rule === 'csa-a23.1-94')
    return of.tool === 'early-entry'
      ? fail('contradiction', '/rule', { given: 'csa-a23.1-94 has no window for early entry' })
      : ok({ ...CSA_HOURS, rule, source: 'csa-a23.1-94' })
  return ok({ ...SAW_HOURS[of.tool][of.weather ?? 'usual'], rule, source: 'faq-915' })
}

/**
 * The same band on the clock. Units: a local time with offset, an IANA zone → two local times.
 * Fails: `missing`, `time-unreadable`. Source: as `sawWindow`.
 */
export const sawTimes = (
  band: SawWindow,
  finishedAt: LocalTime | undefined,
  zone: string,
): Result<{ readonly from: LocalTime; readonly to: LocalTime }, 'missing' | 'time-unreadable'> => {
  if (finishedAt === undefined) return fail('missing', '/finishedAt')
  const finished = readLocalTime(finishedAt)
  if (finished === undefined) return fail('time-unreadable', '/finishedAt', { text: finishedAt })
  const after = ({ n, d }: Measure<'h'>) => toLocalTime(finished + Number((n * 3_600_000n) / d), zone)
  return ok({ from: after(band.from), to: after(band.to) })
}
