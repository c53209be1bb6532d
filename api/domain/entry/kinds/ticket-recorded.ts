import * as z from 'zod/mini'
import { fieldFacts, givenText, givenTime, notStated, quantity, uuid } from '../fields.ts'
import { kind } from '../kind.ts'

const number = z.union([givenText(/^[0-9A-Za-z-]{1,16}$/), notStated])
const truck = z.union([givenText(/^[0-9A-Za-z-]{1,12}$/), notStated])
const yards = z.union([quantity('yd3', 'm3'), notStated])
const batchedAt = z.union([givenTime, notStated])
const limit = z.union([
  z.strictObject({
    is: z.literal('given'),
    text: z.string().check(z.regex(/^[1-9]\d{0,2}$/)),
    unit: z.literal('min'),
    to: z.enum(['discharge-started', 'discharge-ended']),
  }),
  notStated,
])
fieldFacts.add(number, { label: 'ticketNumber' })
fieldFacts.add(truck, { label: 'truck' })
fieldFacts.add(yards, { label: 'yards', unit: 'yd3', step: '1/4', plain: ['1/4', '12'] })
fieldFacts.add(batchedAt, { label: 'batched' })
fieldFacts.add(limit, { label: 'limit', unit: 'min', step: '5', plain: ['30', '240'] })

/**
 * What the supplier's ticket says of one load. The limit is whatever this ticket prints (ASTM C94/C94M-21 leaves it to
 * purchaser or producer and has it on the ticket); where none is printed it is not stated, never 90.
 */
export const ticketRecorded = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({ load: uuid, number, truck, yards, batchedAt, limit }),
)
