/** English, the words of the trade. Each key must stand in es.ts too, or the types fail. */
export const en = {
  ordered: 'Ordered',
  ticketNumber: 'Ticket no.',
  truck: 'Truck',
  yards: 'Yards',
  batched: 'Batched',
  limit: 'Limit',
  water: 'Water',
  slump: 'Slump',
} as const
