import type { MissingKey } from '../../job/figures.ts'
import type { RecordKey } from '../../words/record-en.ts'
import type { LoadModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel } from '../said.ts'
import {
  batchedText,
  givenText,
  limitText,
  limitVerdicts,
  slumpText,
  spanText,
  waterText,
  yardsText,
} from './answers.ts'
import type { Block } from './blocks.ts'
import type { Speech } from './speech.ts'

/** Loads stand side by side, so many in a table: more would not leave room for an answer on one line. */
const LOADS_ACROSS = 4

type Row = {
  readonly label: RecordKey
  readonly cell: (load: LoadModel, speech: Speech) => readonly string[]
}

/** The facts of one load, in the order in which they happen. */
const ROWS: readonly Row[] = [
  {
    label: 'recTicketNumber',
    cell: (load, speech) => tickets(load, speech, (t) => givenText(t.number, speech)),
  },
  { label: 'recTruck', cell: (load, speech) => tickets(load, speech, (t) => givenText(t.truck, speech)) },
  {
    label: 'recYardsTicket',
    cell: (load, speech) => tickets(load, speech, (t) => yardsText(t.yards, speech)),
  },
  {
    label: 'recBatchedTicket',
    cell: (load, speech) => tickets(load, speech, (t) => batchedText(t.batchedAt, speech)),
  },
  {
    label: 'recLimitTicket',
    cell: (load, speech) => tickets(load, speech, (t) => limitText(t.limit, speech)),
  },
  { label: 'recArrived', cell: (load, speech) => times(load.arrived, speech) },
  { label: 'recStarted', cell: (load, speech) => times(load.started, speech) },
  { label: 'recEnded', cell: (load, speech) => times(load.ended, speech) },
  { label: 'recLeft', cell: (load, speech) => times(load.left, speech) },
  { label: 'recBatchStart', cell: (load, speech) => [spanText(load.batchToStart, speech)] },
  { label: 'recBatchEnd', cell: (load, speech) => [spanText(load.batchToEnd, speech)] },
  { label: 'recOnSite', cell: (load, speech) => [spanText(load.onSite, speech)] },
  { label: 'recAgainst', cell: limitVerdicts },
  { label: 'recWater', cell: (load, speech) => waterCell(load, speech) },
  { label: 'recSlumpRow', cell: (load, speech) => slumpCell(load, speech) },
  { label: 'recMissingRow', cell: (load, speech) => [missingText(load.missing, speech)] },
]

export const loadBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const { loads } = model.job
  const heading: Block = { is: 'heading', text: speech.say('recLoads') }
  if (loads.length === 0) return [heading, { is: 'paragraph', text: speech.say('recNoLoads') }]
  const tables: Block[] = []
  for (let from = 0; from < loads.length; from += LOADS_ACROSS)
    tables.push(tableOf(loads.slice(from, from + LOADS_ACROSS), speech))
  return [heading, ...tables]
}

const tableOf = (loads: readonly LoadModel[], speech: Speech): Block => ({
  is: 'table',
  columns: loads.length + 1,
  cells: [
    [],
    ...loads.map((load) => [speech.say('recLoad', { n: load.ordinal })]),
    ...ROWS.flatMap(({ label, cell }) =>
      ofHeight(
        speech.say(label),
        loads.map((load) => cell(load, speech)),
      ),
    ),
  ],
})

/** A row goes on in further ones where it has more lines: a row that is never split must fit on a sheet. */
const MOST_LINES = 8

const ofHeight = (label: string, cells: readonly (readonly string[])[]): (readonly string[])[] => {
  const most = Math.max(...cells.map((cell) => cell.length))
  const rows: (readonly string[])[] = [[label], ...cells.map((cell) => cell.slice(0, MOST_LINES))]
  for (let from = MOST_LINES; from < most; from += MOST_LINES)
    rows.push([], ...cells.map((cell) => cell.slice(from, from + MOST_LINES)))
  return rows
}

/** One answer stands by itself; several are a conflict, and the page says how many there are. */
const several = (answers: readonly string[], speech: Speech): string[] => {
  if (answers.length === 0) return [speech.say('recNotRecorded')]
  return answers.length === 1 ? [...answers] : [speech.say('recSeveral', { n: answers.length }), ...answers]
}

const tickets = (
  load: LoadModel,
  speech: Speech,
  text: (ticket: LoadModel['tickets'][number]) => string,
): string[] => {
  const texts = load.tickets.map(text)
  // Two tickets that agree on a field are no conflict in it.
  if (new Set(texts).size <= 1)
    return texts.length === 0 ? [speech.say('recNotRecorded')] : [speech.marked(texts[0]!, load.tickets)]
  return several(
    load.tickets.map((ticket, i) => speech.said(texts[i]!, ticket)),
    speech,
  )
}

const times = (answers: readonly SaidModel[], speech: Speech): string[] =>
  several(
    answers.map((said) => speech.said(speech.time(said.at), said)),
    speech,
  )

const waterCell = ({ water }: LoadModel, speech: Speech): string[] => {
  if (water.sum.is === 'not-recorded') return [speech.say('recNotRecorded')]
  const answers = water.answers.map((answer) => speech.saidAt(waterText(answer.amount, speech), answer))
  if (water.sum.is !== 'given') return answers
  const { gallons, also } = water.sum
  return [
    speech.say('recWaterSum', { gallons }),
    ...answers,
    ...also.map((is) => speech.say(is === 'none' ? 'recAlsoNone' : 'recAlsoNotSure')),
  ]
}

const slumpCell = ({ slump }: LoadModel, speech: Speech): string[] =>
  slump.length === 0
    ? [speech.say('recNotRecorded')]
    : slump.map((answer) => speech.saidAt(slumpText(answer, speech), answer))

const MISSING: Readonly<Record<MissingKey, RecordKey>> = {
  ticket: 'recMissingTicket',
  batched: 'recMissingBatched',
  limit: 'recMissingLimit',
  yards: 'recMissingYards',
  arrived: 'recMissingArrived',
  started: 'recMissingStarted',
  ended: 'recMissingEnded',
  left: 'recMissingLeft',
  water: 'recMissingWater',
  slump: 'recMissingSlump',
}

/** What the ticket itself leaves out stands in its own rows; here is what nobody logged. */
const ON_TICKET: readonly MissingKey[] = ['batched', 'limit', 'yards']

const missingText = (missing: readonly MissingKey[], speech: Speech): string => {
  const unlogged = missing.filter((key) => !ON_TICKET.includes(key))
  if (unlogged.length === 0) return speech.say('recMissingNone')
  return unlogged.map((key) => speech.say(MISSING[key])).join(', ')
}
