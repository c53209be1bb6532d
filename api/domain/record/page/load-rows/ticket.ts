import type { LoadModel } from '../../load-model.ts'
import { labelled, named, onTickets, type Row, type TicketField } from '../cells.ts'
import type { Speech } from '../speech.ts'

type Ticket = LoadModel['tickets'][number]

/** What the supplier wrote, as it was copied; that it is not stated there is said of each. */
const printed = (field: TicketField, label: Row['label'] = named(field)): Row => ({
  label,
  cell: (load, speech) => onTickets(load, speech, field, (ticket) => textOf(ticket, field, speech)),
})

const textOf = (ticket: Ticket, field: TicketField, speech: Speech): string | undefined => {
  const value = ticket[field] as { readonly is: string } | undefined
  if (value === undefined) return undefined
  return value.is === 'not-stated' ? speech.say('recNotStated') : speech.value(field, value)
}

/** The ticket, in the order in which tickets are read. Times and water stand with the times and the water. */
export const TICKET_ROWS: readonly Row[] = [
  { ...printed('number', labelled('recTicketNumber')), always: true },
  { ...printed('truck', labelled('recTruck')), always: true },
  printed('driver'),
  printed('producer'),
  printed('plant'),
  printed('order'),
  printed('loadOfDay'),
  { ...printed('yards', labelled('recYardsTicket')), always: true },
  printed('ordered', labelled('recOrderedOnTicket')),
  printed('delivered', labelled('recDeliveredOnTicket')),
  printed('mix'),
  printed('strength'),
  printed('slump', labelled('recSlumpAsked')),
  printed('air', labelled('recAirAsked')),
  printed('stone'),
  printed('cementitious'),
  printed('admixtures'),
  printed('fibre'),
  printed('revolutions'),
]
