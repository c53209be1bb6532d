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
  const unit = of === 'slump' ? 'in' : 'pct'
  const end = (text: string) => speech.quantity({ text, unit })
  const ends =
    from !== undefined && to !== undefined
      ? `${from}–${end(to)}`
      : to !== undefined
        ? speech.say('recAtMost', { value: end(to) })
        : speech.say('recAtLeast', { value: end(from ?? '') })
  const by = speech.say(statedBy === 'order' ? 'recOrderSays' : 'recTicketEnds', { ends })
  const text = speech.say(verdict === 'inside' ? 'recInsideOf' : 'recOutsideOf', { by })
  return byEye === 'yes' ? speech.say('recVerdictByEye', { text }) : text
}
