import type { JobOddityKey, LoadFigures, MissingKey, OddityKey } from '../../api/domain/job/figures.ts'
import type { LimitCheck, Verdict } from '../../api/domain/job/limit.ts'
import type { GapCode, GapIs, JobGap } from '../../api/domain/job/missing.ts'
import type { ToleranceCheck } from '../../api/domain/job/tolerance.ts'
import type { Allowance, PartRatio, TicketWater } from '../../api/domain/job/water-cement.ts'
import { compare, type Ratio, ratio, showFixed, showNumber } from '../../api/domain/units.ts'
import type { Names } from '../../api/domain/words/body-lines.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { Words } from './language.ts'
import { showUnit } from './show.ts'

/** Findings in words: the value, what it was compared with, whose paper that is, and where it lies. Nothing more. */
export const VERDICTS: Record<Verdict, LabelKey> = {
  inside: 'verdictInside',
  outside: 'verdictOutside',
  'limit-not-stated': 'verdictNotStated',
  'not-recorded': 'verdictNotRecorded',
}

export const byWhom = (t: Words, by: LimitCheck['statedBy']): string =>
  t(by === 'order' ? 'byOrder' : 'byTicket')

export const toleranceText = (t: Words, check: ToleranceCheck): string => {
  const verdict = t(VERDICTS[check.verdict])
  const { from, to, statedBy } = check
  if (!statedBy || (!from && !to)) return verdict
  const parts = {
    verdict: check.byEye ? `${verdict} (${t('byEyeNote')})` : verdict,
    from: from ? showNumber(from) : '',
    to: to ? showNumber(to) : '',
    unit: showUnit(t, check.of === 'slump' ? 'in' : 'pct'),
    by: byWhom(t, statedBy),
  }
  if (from && to) return t('againstOrder', parts)
  return to ? t('againstMost', parts) : t('againstLeast', parts)
}

/** What each reading of a load is against what was asked for; several lines where two papers differ. */
export const toleranceNotes = (t: Words, figures: LoadFigures | undefined, reading: string): string[] =>
  (figures?.tolerances ?? [])
    .filter((check) => check.reading === reading)
    .map((check) => toleranceText(t, check))

const isZero = (number: Ratio): boolean => compare(number, ratio(0n)) === 0

/** Water by stage, against each ticket's allowance, and the ratio of each part where a ticket gives what that needs. */
export const waterLines = (t: Words, figures: LoadFigures): string[] => {
  const { before, afterBegan, inTransit, notSaid } = figures.waterByStage
  const isSome = [before, afterBegan, inTransit].some((gallons) => !isZero(gallons))
  const unsaid = isZero(notSaid) ? '' : t('waterNoStage', { unsaid: showNumber(notSaid) })
  const stages = isSome
    ? t('waterStages', {
        before: showNumber(before),
        after: showNumber(afterBegan),
        transit: showNumber(inTransit),
      })
    : ''
  const given = [stages, unsaid].filter((text) => text !== '')
  return [
    ...(given.length > 0 ? [given.join(' · ')] : []),
    ...figures.ticketWaters.flatMap((water) => ticketLines(t, water)),
  ]
}

const ticketLines = (t: Words, water: TicketWater): string[] => [
  ...allowanceLines(t, water.allowance),
  ...water.ratios.map((one) => ratioLine(t, one)),
  ...(water.maxRatio && water.ratios.length > 0
    ? [t('ratioMost', { most: showFixed(water.maxRatio, 3) })]
    : []),
]

/** What the ticket lets be added against what was, and the last part's share. */
export const allowanceLines = (t: Words, allowance: Allowance): string[] => {
  if (allowance.is === 'not-stated') return [t('allowanceNotStated')]
  if (allowance.is === 'not-recorded') return [t('allowanceNotRecorded')]
  const { added, atLeast, over, lastPart } = allowance
  const gallons = added && showNumber(added)
  const line = t('allowanceIs', {
    allowed: showNumber(allowance.allowed),
    added: gallons === undefined ? t('addedUnknown') : atLeast ? t('atLeastGallons', { gallons }) : gallons,
    verdict: t(VERDICTS[allowance.verdict]),
  })
  const more = over && !isZero(over) ? [`${line}, ${t('overBy', { over: showNumber(over) })}`] : [line]
  if (!lastPart) return more
  const part = t('lastPartWater', {
    rate: showNumber(lastPart.gallonsPerYard),
    over: showNumber(lastPart.over),
  })
  return [...more, part + notes(t, lastPart)]
}

const PARTS: Record<PartRatio['part'], LabelKey> = {
  batched: 'partBatched',
  first: 'partFirst',
  last: 'partLast',
  whole: 'partWhole',
}

const ratioLine = (t: Words, one: PartRatio): string => {
  const line = t('ratioIs', { part: t(PARTS[one.part]), ratio: showFixed(one.ratio, 3) })
  const range = one.range
    ? `, ${t('ratioRange', { from: showFixed(one.range[0], 3), to: showFixed(one.range[1], 3) })}`
    : ''
  return line + range + notes(t, one)
}

const notes = (
  t: Words,
  { byEye, byTimes }: { readonly byEye: boolean; readonly byTimes: boolean },
): string => {
  const all = [...(byEye ? [t('byEyeNote')] : []), ...(byTimes ? [t('byTimesNote')] : [])]
  return all.length > 0 ? ` (${all.join(', ')})` : ''
}

export const GAPS: Record<GapCode, LabelKey> = {
  base: 'gapBase',
  depth: 'gapDepth',
  weather: 'gapWeather',
  'surface-temperature': 'gapSurface',
  'bleed-water': 'gapBleed',
  joints: 'gapJoints',
  cure: 'gapCure',
  nights: 'gapNights',
  slump: 'gapSlump',
  air: 'gapAir',
  'concrete-temperature': 'gapConcreteTemperature',
  cylinders: 'gapCylinders',
  'slump-after-water': 'gapSlumpAfterWater',
  'air-after-water': 'gapAirAfterWater',
  'in-drum': 'gapInDrum',
  'where-placed': 'gapWherePlaced',
  'left-over': 'gapLeftOver',
  waiver: 'gapWaiver',
  signature: 'gapSignature',
  'curb-line': 'gapCurb',
}
const GAP_IS: Record<GapIs, LabelKey> = {
  'not-recorded': 'gapNotRecorded',
  'not-taken': 'gapNotTaken',
  'by-eye': 'gapByEye',
  'left-blank': 'gapLeftBlank',
}

/** One thing that the log leaves open, with the part that it is about; its load is where it stands. */
export const gapText = (t: Words, gap: JobGap, names: Names): string => {
  const what = gap.after === undefined ? t(GAPS[gap.gap]) : t('gapNightsAfter', { day: gap.after })
  const part = gap.part === undefined ? undefined : names.part(gap.part)
  return t(GAP_IS[gap.is], { what: part === undefined ? what : `${what}, ${part}` })
}

export const ODDITIES: Record<OddityKey, LabelKey> = {
  'times-backwards': 'oddTimesBackwards',
  'time-ahead': 'oddTimeAhead',
  'water-none-and-some': 'oddWaterBoth',
  'water-said-twice': 'oddWaterTwice',
  'water-stage-against-times': 'oddStageTimes',
  'yards-do-not-fit': 'oddYards',
  'rejected-and-taken': 'oddRejected',
  'several-answers': 'oddSeveral',
}
export const JOB_ODDITIES: Record<JobOddityKey, LabelKey> = {
  'order-said-twice': 'oddOrderTwice',
  'part-planned-twice': 'oddPartTwice',
  'several-answers': 'oddSeveral',
}

/** What a load still lacks, by name. */
export const MISSING: Record<MissingKey, LabelKey> = {
  ticket: 'ticket',
  batched: 'missingBatched',
  limit: 'missingLimit',
  yards: 'missingYards',
  arrived: 'arrived',
  started: 'dischargeStarted',
  ended: 'dischargeEnded',
  left: 'truckLeft',
  water: 'water',
  slump: 'slump',
}
