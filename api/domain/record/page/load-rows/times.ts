import type { OddityKey } from '../../../job/figures.ts'
import type { RecordKey } from '../../../words/record-words.ts'
import type { LoadModel } from '../../load-model.ts'
import { batchedText, limitText, limitVerdicts, spanText } from '../answers.ts'
import { labelled, moment, moments, onTickets, quoted, type Row } from '../cells.ts'
import type { Speech } from '../speech.ts'

const ODD: Readonly<Record<OddityKey, RecordKey>> = {
  'times-backwards': 'recOddBackwards',
  'time-ahead': 'recOddAhead',
  'water-none-and-some': 'recOddWater',
  'water-said-twice': 'recOddWaterTwice',
  'water-stage-against-times': 'recOddStage',
  'yards-do-not-fit': 'recOddYards',
  'rejected-and-taken': 'recOddRejected',
  'several-answers': 'recOddSeveral',
}

/** When it happened, and the minutes that follow from it. */
export const TIME_ROWS: readonly Row[] = [
  {
    label: labelled('recBatchedTicket'),
    cell: (load, speech) =>
      onTickets(load, speech, 'batchedAt', ({ batchedAt }) => batchedText(batchedAt, speech)),
    always: true,
  },
  {
    label: labelled('recPrintedTicket'),
    cell: (load, speech) =>
      onTickets(load, speech, 'printedAt', ({ printedAt }) => printedAt && batchedText(printedAt, speech)),
  },
  {
    label: labelled('recLeftPlantTicket'),
    cell: (load, speech) =>
      onTickets(
        load,
        speech,
        'leftPlantAt',
        ({ leftPlantAt }) => leftPlantAt && batchedText(leftPlantAt, speech),
      ),
  },
  { label: labelled('recArrived'), cell: (load, speech) => moment(load.arrived, speech), always: true },
  { label: labelled('recReady'), cell: (load, speech) => moment(load.ready, speech) },
  { label: labelled('recStarted'), cell: (load, speech) => moment(load.started, speech), always: true },
  { label: labelled('recPaused'), cell: (load, speech) => moments(load.paused, speech) },
  { label: labelled('recResumed'), cell: (load, speech) => moments(load.resumed, speech) },
  { label: labelled('recEnded'), cell: (load, speech) => moment(load.ended, speech), always: true },
  { label: labelled('recLeft'), cell: (load, speech) => moment(load.left, speech), always: true },
  {
    label: labelled('recBatchArrive'),
    cell: (load, speech) => spanText(load.batchToArrival, speech),
    always: true,
  },
  {
    label: labelled('recBatchStart'),
    cell: (load, speech) => spanText(load.batchToStart, speech),
    always: true,
  },
  { label: labelled('recBatchEnd'), cell: (load, speech) => spanText(load.batchToEnd, speech), always: true },
  { label: labelled('recOnSite'), cell: (load, speech) => spanText(load.onSite, speech), always: true },
  {
    label: labelled('recLimitTicket'),
    cell: (load, speech) => onTickets(load, speech, 'limit', ({ limit }) => limitText(limit, speech)),
    always: true,
  },
  { label: labelled('recAgainst'), cell: limitVerdicts, always: true },
  { label: labelled('recWaived'), cell: (load, speech) => waivedCell(load, speech) },
  {
    label: labelled('recOdd'),
    cell: ({ oddities }, speech) =>
      oddities.length === 0 ? [speech.say('recOddNone')] : oddities.map((odd) => speech.say(ODD[odd])),
    always: true,
  },
]

/** Of a load outside its limit it matters that nobody is recorded to have waived it. */
const waivedCell = ({ waived, limit }: LoadModel, speech: Speech): string[] => {
  if (waived.length === 0) return limit.verdict === 'outside' ? [speech.say('recNoWaiver')] : []
  return waived.map((one) =>
    speech.saidAt(
      [speech.say('recByWhom', { who: speech.value('who', one.body.who) }), ...quoted(one.body.words)].join(
        ': ',
      ),
      one,
    ),
  )
}
