import type { RecordKey } from '../../../words/record-words.ts'
import type { LoadModel, TicketWaterModel } from '../../load-model.ts'
import { several } from '../cells.ts'
import type { Speech } from '../speech.ts'

type Ratio = TicketWaterModel['ratios'][number]
type Ticket = LoadModel['tickets'][number]

const PARTS: Readonly<Record<Ratio['part'], RecordKey>> = {
  batched: 'recRatioBatched',
  first: 'recRatioFirst',
  last: 'recRatioLast',
  whole: 'recRatioWhole',
}

/**
 * Water–cement ratio of each part, only where the ticket gives what that needs; else what it lacks. What rests on
 * somebody's eye is said in two decimals with its range, never in three alone.
 */
export const partRatios = (load: LoadModel, speech: Speech): string[] => {
  if (load.tickets.length === 0) return []
  const answers = load.ticketWaters.map(({ ticket, ratios }) => {
    const said = load.tickets.find(({ entry }) => entry === ticket)
    return ratios.length === 0
      ? [lackText(said, speech)]
      : [...ratios.map((r) => ratioText(r, load, speech)), ...openText(load, ratios, speech)]
  })
  const distinct = [...new Map(answers.map((lines) => [lines.join('\n'), lines])).values()]
  return distinct.length === 1
    ? distinct[0]!
    : several(
        distinct.map((lines) => lines.join('; ')),
        speech,
      )
}

const ratioText = (figure: Ratio, load: LoadModel, speech: Speech): string =>
  figure.byTimes === 'yes'
    ? `${valueText(figure, load, speech)} ${speech.say('recByTimes')}`
    : valueText(figure, load, speech)

const valueText = ({ part, ratio, about, range, byEye }: Ratio, load: LoadModel, speech: Speech): string => {
  const label = speech.say(PARTS[part])
  if (byEye === 'no') return `${label}: ${ratio}`
  const drum = drumOf(load)
  const yards = drum ? speech.quantity(drum.yards) : speech.say('recNotRecorded')
  const ends = range && drum?.from && drum.to ? `${drum.from.text}–${speech.quantity(drum.to)}` : undefined
  const value = ends
    ? speech.say('recRatioRange', { about, ratio, yards, from: range![0], to: range![1], ends })
    : speech.say('recRatioAbout', { about, ratio, yards })
  return `${label}: ${value}`
}

/** The one judgement of what was still in the drum that the last part's figure rests on. */
const drumOf = ({ water }: LoadModel) => {
  const after = water.answers.filter(
    ({ stage, inDrum }) => stage !== 'before-discharge' && inDrum !== undefined,
  )
  return after.length === 1 ? after[0]!.inDrum : undefined
}

const NEEDED = ['yards', 'batchedWater', 'cementitious'] as const

const lackText = (ticket: Ticket | undefined, speech: Speech): string => {
  const lacking = NEEDED.filter((field) => ticket?.[field]?.is !== 'given').map(
    (field) => speech.words.fields[field],
  )
  return speech.say('recRatioLacks', { what: lacking.join(', ') })
}

/** One addition alone may have gone in after discharge began, and what was still in the drum was said of it. */
const isDrumSaid = ({ answers }: LoadModel['water']): boolean => {
  const after = answers.filter(
    ({ amount, stage }) =>
      amount.is === 'given' && (stage === undefined || stage === 'after-discharge-began'),
  )
  return after.length === 1 && after[0]!.inDrum !== undefined
}

/** What of the ratios stays open, and why. */
const openText = ({ water }: LoadModel, ratios: readonly Ratio[], speech: Speech): string[] => {
  if (water.sum.is === 'not-recorded') return [speech.say('recRatioNoWater')]
  if (!ratios.some(({ part }) => part === 'whole')) return [speech.say('recRatioUnsure')]
  const parted = ratios.some(({ part }) => part === 'first')
  if (!parted || ratios.some(({ part }) => part === 'last')) return []
  return [speech.say(isDrumSaid(water) ? 'recRatioDrumOdd' : 'recRatioNoDrum')]
}
