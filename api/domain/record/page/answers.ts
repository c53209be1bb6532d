import type { Slump, Ticket, Water } from '../../job/view.ts'
import type { LoadModel, Span } from '../load-model.ts'
import type { Speech } from './speech.ts'

/** Answers as they are printed. None, not taken, not stated and not recorded are four different texts. */
export const waterText = (amount: Water, speech: Speech): string => {
  if (amount.is === 'given') return speech.quantity(amount)
  return speech.say(amount.is === 'none' ? 'recNone' : 'recNotSure')
}

/** By eye is not measured, and says so. */
export const slumpText = ({ slump, how }: Slump, speech: Speech): string =>
  slump.is === 'not-taken'
    ? speech.say('recNotTaken')
    : speech.say(how === 'cone' ? 'recCone' : 'recByEye', { value: speech.quantity(slump) })

export const limitText = (limit: Ticket['limit'], speech: Speech): string =>
  limit.is === 'not-stated'
    ? speech.say('recNotStated')
    : speech.say('recLimitIs', { n: limit.text, event: eventText(limit.to, speech) })

export const eventText = (to: 'discharge-started' | 'discharge-ended', speech: Speech): string =>
  speech.say(to === 'discharge-started' ? 'recToStarted' : 'recToEnded')

export const givenText = (
  answer: { readonly is: 'given'; readonly text: string } | { readonly is: 'not-stated' },
  speech: Speech,
): string => (answer.is === 'given' ? answer.text : speech.say('recNotStated'))

export const yardsText = (yards: Ticket['yards'], speech: Speech): string =>
  yards.is === 'given' ? speech.quantity(yards) : speech.say('recNotStated')

export const batchedText = (at: Ticket['batchedAt'], speech: Speech): string =>
  at.is === 'given' ? speech.time(at.at) : speech.say('recNotStated')

export const spanText = (span: Span, speech: Speech): string => {
  if (span.is === 'not-recorded') return speech.say('recNotRecorded')
  if (span.is === 'not-stated') return speech.say('recNotStated')
  return span.minutes
    .map((minutes) => speech.say(minutes < 0 ? 'recBackwards' : 'recMinutes', { minutes }))
    .join(speech.say('recOr'))
}

/** Where each measured time lies against that ticket's own limit. */
export const limitVerdicts = ({ limit }: LoadModel, speech: Speech): string[] => {
  if (limit.verdict === 'not-recorded') return [speech.say('recNotRecorded')]
  if (limit.verdict === 'limit-not-stated') return [speech.say('recNoLimit')]
  return limit.checks.map(({ verdict, minutes, limitMinutes }) =>
    speech.say(verdict === 'inside' ? 'recInside' : 'recOutside', { minutes, n: limitMinutes }),
  )
}
