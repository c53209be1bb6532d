import type { LoadModel } from '../../load-model.ts'
import { answered, labelled, quoted, type Row } from '../cells.ts'
import type { Speech } from '../speech.ts'

/** Taken or sent back, where it went, what was left, and what was signed. */
export const OUTCOME_ROWS: readonly Row[] = [
  {
    label: labelled('recAccepted'),
    cell: ({ accepted }, speech) =>
      answered(accepted, speech, ({ body }) =>
        body.who === undefined
          ? speech.say('recAcceptedYes')
          : speech.say('recByWhom', { who: speech.value('who', body.who) }),
      ),
  },
  {
    label: labelled('recRejected'),
    cell: ({ rejected }, speech) => answered(rejected, speech, ({ body }) => rejectedText(body, speech)),
  },
  {
    label: labelled('recPlacedWhere'),
    cell: ({ placed }, speech) => placed.map((one) => speech.saidAt(placesText(one.body, speech), one)),
    always: true,
  },
  {
    label: labelled('recLeftOver'),
    cell: ({ leftOver }, speech) => answered(leftOver, speech, ({ body }) => leftText(body, speech)),
    always: true,
  },
  {
    label: labelled('recPlacedYards'),
    cell: ({ placedYards }, speech) =>
      placedYards === undefined ? [] : [speech.quantity({ text: placedYards, unit: 'yd3' })],
  },
  {
    label: labelled('recSigned'),
    cell: ({ signed }, speech) =>
      answered(signed, speech, ({ body }) => speech.say('recByWhom', { who: speech.value('who', body.who) })),
    always: true,
  },
  {
    label: labelled('recException'),
    cell: ({ signed }, speech) =>
      signed.map(({ body: { exception } }) =>
        exception.is === 'none' ? speech.say('recNoException') : speech.value('exception', exception),
      ),
  },
  {
    label: labelled('recCurb'),
    cell: ({ signed }, speech) =>
      signed.flatMap(({ body: { curb } }) => (curb === undefined ? [] : [speech.words.codes[curb]])),
  },
]

const rejectedText = (
  { reason, who, words }: LoadModel['rejected'][number]['body'],
  speech: Speech,
): string =>
  [
    speech.words.codes[reason],
    ...(who === undefined ? [] : [speech.say('recByWhom', { who: speech.value('who', who) })]),
    ...quoted(words),
  ].join(', ')

type Placed = LoadModel['placed'][number]['body']
type Place = Placed['places'][number]

const placesText = ({ places, how, said }: Placed, speech: Speech): string =>
  [
    places.map((place) => placeText(place, speech)).join('; '),
    speech.words.codes[how],
    ...(said === undefined ? [] : [`“${said}”`]),
  ].join(', ')

/** `drive, 24.6 ft to 40 ft, 0.5 yd³`: along the part's length from its named end. */
const placeText = ({ part, from, to, yards }: Place, speech: Speech): string =>
  [
    speech.where([part]),
    ...(from && to
      ? [speech.say('recFromTo', { from: speech.quantity(from), to: speech.quantity(to) })]
      : from
        ? [speech.say('recFromOn', { from: speech.quantity(from) })]
        : to
          ? [speech.say('recUpTo', { to: speech.quantity(to) })]
          : []),
    ...(yards ? [speech.quantity(yards)] : []),
  ].join(' ')

type LeftOver = LoadModel['leftOver'][number]['body']

const leftText = ({ yards, how, to }: LeftOver, speech: Speech): string => {
  if (yards.is !== 'given') return speech.say(yards.is === 'none' ? 'recNothing' : 'recNotSure')
  return [
    speech.quantity(yards),
    speech.words.codes[how],
    ...(to === undefined ? [] : [speech.words.codes[to]]),
  ].join(', ')
}
