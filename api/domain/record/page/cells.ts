import type { FieldName } from '../../words/entry-words.ts'
import type { RecordKey } from '../../words/record-words.ts'
import type { LoadModel } from '../load-model.ts'
import type { SaidModel } from '../said.ts'
import type { Speech } from './speech.ts'

/** One fact of a load: a cell without a line is a fact that nobody recorded of that load. */
export type Row = {
  readonly label: (speech: Speech) => string
  readonly cell: (load: LoadModel, speech: Speech) => readonly string[]
  /** Shown also where no load says anything; any other row is then named among what was not recorded. */
  readonly always?: true
}

export const labelled = (key: RecordKey) => (speech: Speech) => speech.say(key)
export const named = (field: FieldName) => (speech: Speech) => speech.field(field)

/** One answer stands by itself; several are a conflict, and the page says how many there are. */
export const several = (answers: readonly string[], speech: Speech): string[] =>
  answers.length <= 1 ? [...answers] : [speech.say('recSeveral', { n: answers.length }), ...answers]

/** A question that has one answer: each that stands, with who said it. */
export const answered = <T extends SaidModel>(
  all: readonly T[],
  speech: Speech,
  text: (answer: T) => string,
): string[] =>
  several(
    all.map((answer) => speech.saidAt(text(answer), answer)),
    speech,
  )

/** A moment: its time is the answer. */
export const moment = (all: readonly SaidModel[], speech: Speech): string[] =>
  several(moments(all, speech), speech)

/** Moments that may come again: several are no conflict. */
export const moments = (all: readonly SaidModel[], speech: Speech): string[] =>
  all.map((said) => speech.said(speech.time(said.at), said))

/** Somebody's words, as they said them. */
export const quoted = (words: { readonly text: string } | undefined): string[] =>
  words === undefined ? [] : [`“${words.text}”`]

type Ticket = LoadModel['tickets'][number]
export type TicketField = Extract<keyof Ticket, FieldName>

/** What the tickets say of one thing. Two tickets that agree on it are no conflict in it; only what was corrected is marked. */
export const onTickets = (
  { tickets }: LoadModel,
  speech: Speech,
  field: TicketField,
  text: (ticket: Ticket) => string | undefined,
): string[] => {
  const texts = tickets.map(text)
  if (texts.every((one) => one === undefined)) return []
  const filled = texts.map((one) => one ?? speech.say('recNotRecorded'))
  if (new Set(filled).size === 1)
    return [
      speech.marked(
        filled[0]!,
        tickets.filter((ticket) => speech.isChanged(ticket, field)),
      ),
    ]
  return several(
    tickets.map((ticket, i) => speech.said(filled[i]!, ticket)),
    speech,
  )
}
