import { ratio } from '../units.ts'
import { type Measure, measure } from './measure.ts'

/** What the remarks of a US report add. */
export type Remarks = {
  readonly temperature: Measure<'degC'> | undefined
  readonly dewPoint: Measure<'degC'> | undefined
  readonly seaLevelPressure: Measure<'hPa'> | undefined
  /** Highest and lowest of the last six hours, in the order in which they stand. */
  readonly highest6h: readonly Measure<'degC'>[]
  readonly lowest6h: readonly Measure<'degC'>[]
  readonly highest24h: Measure<'degC'> | undefined
  readonly lowest24h: Measure<'degC'> | undefined
  readonly unread: readonly string[]
}

/**
 * The additive data after RMK; prose there is kept as unread. Units: tenths of °C, tenths of hPa.
 * Fails: never; a group in another form is unread. Source: AFMAN 15-111 (2019), remarks 30–32; FAA key to METAR.
 */
export const readRemarks = (groups: readonly string[]): Remarks =>
  groups.reduce(takeRemark, {
    temperature: undefined,
    dewPoint: undefined,
    seaLevelPressure: undefined,
    highest6h: [],
    lowest6h: [],
    highest24h: undefined,
    lowest24h: undefined,
    unread: [],
  })

const takeRemark = (said: Remarks, group: string): Remarks => {
  const t = /^T([01]\d{3})(?:([01]\d{3}))?$/.exec(group)
  if (t)
    return { ...said, temperature: tenths(t[1]!), dewPoint: t[2] === undefined ? undefined : tenths(t[2]) }
  const slp = /^SLP(\d{3})$/.exec(group)
  if (slp) {
    // 500 and above stand for 950.0 to 999.9, below for 1000.0 to 1049.9.
    const digits = BigInt(slp[1]!)
    return {
      ...said,
      seaLevelPressure: measure(ratio((digits >= 500n ? 9_000n : 10_000n) + digits, 10n), 'hPa'),
    }
  }
  const six = /^([12])([01]\d{3})$/.exec(group)
  if (six?.[1] === '1') return { ...said, highest6h: [...said.highest6h, tenths(six[2]!)] }
  if (six) return { ...said, lowest6h: [...said.lowest6h, tenths(six[2]!)] }
  const day = /^4([01]\d{3})([01]\d{3})$/.exec(group)
  if (day) return { ...said, highest24h: tenths(day[1]!), lowest24h: tenths(day[2]!) }
  return { ...said, unread: [...said.unread, group] }
}

/** `1` in front is below zero: `1015` is −1.5. */
const tenths = (group: string): Measure<'degC'> =>
  measure(ratio((group.startsWith('1') ? -1n : 1n) * BigInt(group.slice(1)), 10n), 'degC')
