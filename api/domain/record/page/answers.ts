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

export const batchedText = (at: Ticket['batchedAt'], speech: Speech): string =>
  at.is === 'given' ? speech.time(at.at) : speech.say('recNotStated')

/** A reading, or that it was not taken. */
export const readingText = (
  reading:
    | {
        readonly is: 'given'
        readonly text: string
        readonly unit: Parameters<Speech['quantity']>[0]['unit']
      }
    | { readonly is: 'not-taken' },
  speech: Speech,
): string => (reading.is === 'given' ? speech.quantity(reading) : speech.say('recNotTaken'))

/** Nobody recorded what it needs: no line. */
export const spanText = (span: Span, speech: Speech): string[] => {
  if (span.is === 'not-recorded') return []
  if (span.is === 'not-stated') return [speech.say('recNotStated')]
  const minutes = span.minutes.map((one) =>
    speech.say(one < 0 ? 'recBackwards' : 'recMinutes', { minutes: one }),
  )
  return [minutes.join(speech.say('recOr'))]
}

/** Where each measured time lies against the limit of that ticket, or of the order where no ticket states one. */
export const limitVerdicts = ({ limit }: LoadModel, speech: Speech): string[] => {
  if (limit.verdict === 'limit-not-stated') return [speech.say('recNoLimit')]
  return limit.checks.map(({ verdict, minutes, limitMinutes, statedBy }) => {
    const text = speech.say(verdict === 'inside' ? 'recInside' : 'recOutside', { minutes, n: limitMinutes })
    return statedBy === 'order' ? speech.say('recByOrder', { value: text }) : text
  })
}
