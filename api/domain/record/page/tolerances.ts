import type { ToleranceModel } from '../load-model.ts'
import type { Speech } from './speech.ts'

/** Where a reading lies against what was asked for: the ends, whose paper states them, and no judgement. */
export const toleranceTexts = (all: readonly ToleranceModel[], reading: string, speech: Speech): string[] => [
  ...new Set(all.filter((one) => one.reading === reading).map((one) => toleranceText(one, speech))),
]

const toleranceText = (
  { of, from, to, statedBy, byEye, verdict }: ToleranceModel,
  speech: Speech,
): string => {
  if (verdict === 'limit-not-stated' || verdict === 'not-recorded' || statedBy === undefined)
    return speech.say('recNoTolerance')
  const ends = endsText({ of, from, to }, speech)
  const by = speech.say(statedBy === 'order' ? 'recOrderSays' : 'recTicketEnds', { ends })
  const text = speech.say(verdict === 'inside' ? 'recInsideOf' : 'recOutsideOf', { by })
  return byEye === 'yes' ? speech.say('recVerdictByEye', { text }) : text
}

/** `3–5 in`, `at most 5 in`. */
export const endsText = (
  {
    of,
    from,
    to,
  }: {
    readonly of: ToleranceModel['of']
    readonly from?: string | undefined
    readonly to?: string | undefined
  },
  speech: Speech,
): string => {
  const unit = of === 'slump' ? 'in' : 'pct'
  const end = (text: string) => speech.quantity({ text, unit })
  if (from !== undefined && to !== undefined) return `${from}–${end(to)}`
  return to !== undefined
    ? speech.say('recAtMost', { value: end(to) })
    : speech.say('recAtLeast', { value: end(from ?? '') })
}
