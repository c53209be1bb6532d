import { fail, ok, type Result } from '../result.ts'
import { type Input, offRange, type TradeProblem } from './asked.ts'
import { compareTo, type Finding } from './finding.ts'
import { type Duration, exactly, type Length, type Measure, roundTo, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'

/**
 * What the test method asks for. Source: ASTM C143/C143M as summarised by a contractor’s page and a technician’s guide.
 */
export const SLUMP_TEST = {
  applicableAbove: exactly('0.5', 'in'),
  applicableBelow: exactly('9', 'in'),
  reportTo: exactly('0.25', 'in'),
  startWithin: exactly('5', 'min'),
  completeWithin: exactly('2.5', 'min'),
  moldHeight: exactly('12', 'in'),
  moldBase: exactly('8', 'in'),
  moldTop: exactly('4', 'in'),
  layers: 3,
  rodsPerLayer: 25,
} as const

export type SlumpReading = {
  /** To the step that the method reports to. */
  readonly reported: Measure<'in'>
  /** Whether the method applies to so stiff or so wet a concrete. */
  readonly range: Finding<'in'>
  readonly start: Finding<'min'>
  readonly duration: Finding<'min'>
}

/**
 * A slump as it is reported, whether the method applies to it, and its times, as far as they were recorded.
 * Units: any length, any times → inches to the quarter, minutes. Fails: `missing`, `out-of-range` (0 to 12 in: the mold
 * is no higher). Source: ASTM C143/C143M: over ½ in and under 9 in, nearest ¼ in, done within 2½ min.
 */
export const slumpReading = (of: {
  readonly measured: Input<Length>
  /** From the last portion of the sample to the start of the test. */
  readonly sinceSampling?: Input<Duration>
  readonly duration?: Input<Duration>
}): Result<SlumpReading, TradeProblem> => {
  const off =
    offRange('/measured', of.measured, RANGES.slump) ??
    (of.sinceSampling && offRange('/sinceSampling', of.sinceSampling, RANGES.minutes)) ??
    (of.duration && offRange('/duration', of.duration, RANGES.minutes))
  if (off || !of.measured) return off ?? fail('missing', '/measured')
  const { applicableAbove, applicableBelow, reportTo, startWithin, completeWithin } = SLUMP_TEST
  const minutes = (m: Input<Duration>) => m && toUnit(m, 'min')
  return ok({
    reported: roundTo(of.measured, reportTo),
    range: compareTo('slump', toUnit(of.measured, 'in'), {
      least: applicableAbove,
      most: applicableBelow,
      open: 'both',
      source: 'c143',
    }),
    start: compareTo('start', minutes(of.sinceSampling), { most: startWithin, source: 'c172' }),
    duration: compareTo('duration', minutes(of.duration), { most: completeWithin, source: 'c143' }),
  })
}
