import type { LoadModel, TicketWaterModel } from '../../load-model.ts'
import { waterText } from '../answers.ts'
import { labelled, named, onTickets, type Row, several } from '../cells.ts'
import type { Speech } from '../speech.ts'
import { partRatios } from './ratios.ts'

/** Water by when it went in, beside what the ticket allows, and what that comes to. */
export const WATER_ROWS: readonly Row[] = [
  {
    label: named('batchedWater'),
    cell: (load, speech) => stated(load, speech, 'batchedWater'),
    always: true,
  },
  { label: labelled('recWater'), cell: (load, speech) => waterCell(load, speech), always: true },
  { label: labelled('recWaterStages'), cell: (load, speech) => stagesCell(load, speech), always: true },
  {
    label: labelled('recAllowance'),
    cell: (load, speech) => stated(load, speech, 'allowance'),
    always: true,
  },
  {
    label: labelled('recAgainstAllowance'),
    cell: (load, speech) => allowanceCell(load, speech),
    always: true,
  },
  { label: labelled('recLastPart'), cell: (load, speech) => lastPartCell(load, speech), always: true },
  { label: labelled('recMaxRatio'), cell: (load, speech) => stated(load, speech, 'maxWaterCement') },
  { label: labelled('recRatio'), cell: partRatios, always: true },
  {
    label: labelled('recAdmixtureSite'),
    cell: ({ admixtures }, speech) => admixtures.map((one) => speech.saidAt(speech.body(one.body), one)),
  },
]

type OnTicket = 'batchedWater' | 'allowance' | 'maxWaterCement'

const stated = (load: LoadModel, speech: Speech, field: OnTicket): string[] =>
  onTickets(load, speech, field, (ticket) => {
    const value = ticket[field]
    if (value === undefined) return undefined
    return value.is === 'not-stated' ? speech.say('recNotStated') : speech.value(field, value)
  })

const waterCell = ({ water }: LoadModel, speech: Speech): string[] => {
  const answers = water.answers.map((answer) => speech.saidAt(additionText(answer, speech), answer))
  if (water.sum.is !== 'given') return answers
  const { gallons, also } = water.sum
  return [
    speech.say('recWaterSum', { gallons }),
    ...answers,
    ...also.map((is) => speech.say(is === 'none' ? 'recAlsoNone' : 'recAlsoNotSure')),
  ]
}

/** `8 gal, after discharge began, still in the drum: 5 yd³, by eye; asked by Beto`: what was said of one addition. */
const additionText = ({ amount, stage, inDrum, asked, added, mixed }: Addition, speech: Speech): string =>
  [
    waterText(amount, speech),
    ...(stage === undefined ? [] : [speech.words.codes[stage]]),
    ...(inDrum === undefined ? [] : [drumText(inDrum, speech)]),
    ...(asked === undefined ? [] : [speech.body({ asked })]),
    ...(added === undefined ? [] : [speech.body({ added })]),
    ...(mixed === undefined ? [] : [speech.body({ mixed })]),
  ].join(', ')

type Addition = LoadModel['water']['answers'][number]

const drumText = ({ yards, how, from, to }: NonNullable<Addition['inDrum']>, speech: Speech): string => {
  const ends = from && to ? ` (${from.text}–${speech.quantity(to)})` : ''
  return `${speech.words.fields.inDrum}: ${speech.quantity(yards)}${ends}, ${speech.words.codes[how]}`
}

/** Only where there is water of more than one stage, or of a stage that nobody said. */
const stagesCell = ({ water: { sum, stages } }: LoadModel, speech: Speech): string[] => {
  if (sum.is === 'none') return [speech.say('recNone')]
  if (sum.is !== 'given') return []
  const lines = [
    ['recStageTransit', stages.inTransit, '0'],
    ['recStageBefore', stages.before, stages.beforeByTimes],
    ['recStageAfter', stages.afterBegan, stages.afterBeganByTimes],
    ['recStageNotSaid', stages.notSaid, '0'],
  ] as const
  return lines.flatMap(([key, gallons, byTimes]) => {
    if (gallons === '0') return []
    const line = speech.say(key, { gallons })
    if (byTimes === '0') return [line]
    const how = byTimes === gallons ? 'recAllByTimes' : 'recStageByTimes'
    return [`${line} ${speech.say(how, { gallons: byTimes })}`]
  })
}

const perTicket = (
  load: LoadModel,
  speech: Speech,
  text: (water: TicketWaterModel) => readonly string[],
): string[] => {
  const answers = [...new Set(load.ticketWaters.map((water) => text(water).join(' ')))].filter(
    (line) => line !== '',
  )
  return several(answers, speech)
}

/** What the ticket allows against what was added: inside only where all the water is known. */
const allowanceCell = (load: LoadModel, speech: Speech): string[] =>
  perTicket(load, speech, ({ allowance }) => {
    if (allowance.is !== 'given') return allowance.is === 'not-stated' ? [speech.say('recNoAllowance')] : []
    const { allowed, added, over, atLeast, verdict } = allowance
    if (added === undefined) return [speech.say('recAllowanceNoWater')]
    if (verdict === 'inside') return [speech.say('recAllowanceInside', { added, allowed })]
    const open = atLeast === 'yes' ? [speech.say('recAllowanceUnsure')] : []
    if (verdict === 'outside' && over !== undefined)
      return [speech.say('recAllowanceOutside', { added, allowed, over }), ...open]
    return [speech.say('recAllowanceOpen', { added, allowed }), ...open]
  })

/** What the water after discharge began came to for the part that it reached. */
const lastPartCell = (load: LoadModel, speech: Speech): string[] => {
  if (isNoneAfterStart(load)) return [speech.say('recNoneAfter')]
  const parts = perLastPart(load, speech)
  // What was in the drum is on the sheet already: it can't be called not recorded for want of a figure.
  const isSaid = load.water.answers.some(({ inDrum }) => inDrum !== undefined)
  return parts.length === 0 && isSaid ? [speech.say('recLastPartOpen')] : parts
}

/** Somebody said that none went in, or all that did is known to have gone in before. */
const isNoneAfterStart = ({ water: { sum, stages } }: LoadModel): boolean =>
  sum.is === 'none' ||
  (sum.is === 'given' && sum.also.length === 0 && stages.afterBegan === '0' && stages.notSaid === '0')

const perLastPart = (load: LoadModel, speech: Speech): string[] =>
  perTicket(load, speech, ({ allowance }) => {
    if (allowance.is !== 'given' || !allowance.lastPart) return []
    const { gallonsPerYard, over, range, byEye, byTimes } = allowance.lastPart
    const one =
      range && range.over[0] === range.over[1] && range.gallonsPerYard[0] === range.gallonsPerYard[1]
    return [
      speech.say('recLastPartIs', { gallonsPerYard }),
      speech.say(over === '0' ? 'recLastPartInside' : 'recLastPartOver', { over }),
      ...(range && !one
        ? [
            speech.say('recLastPartRange', {
              gallonsFrom: range.gallonsPerYard[0],
              gallonsTo: range.gallonsPerYard[1],
              overFrom: range.over[0],
              overTo: range.over[1],
            }),
          ]
        : []),
      ...(byEye === 'yes' ? [speech.say('recLastPartByEye')] : []),
      ...(byTimes === 'yes' ? [speech.say('recByTimes')] : []),
    ]
  })
