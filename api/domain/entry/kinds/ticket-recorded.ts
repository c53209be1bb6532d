import * as z from 'zod/mini'
import { fieldFacts, givenText, givenTime, none, notStated, quantity, uuid } from '../fields.ts'
import { kind, widened } from '../kind.ts'
import {
  airAsked,
  dischargeLimit,
  givenWords,
  siteWater,
  slumpAsked,
  stated,
  stone,
  strength,
} from '../mix.ts'

const number = z.union([givenText(/^[0-9A-Za-z-]{1,16}$/), notStated])
const truck = z.union([givenText(/^[0-9A-Za-z-]{1,12}$/), notStated])
const yards = z.union([quantity('yd3', 'm3'), notStated])
const batchedAt = z.union([givenTime, notStated])
const limit = z.union([dischargeLimit, notStated])
fieldFacts.add(number, { label: 'ticketNumber' })
fieldFacts.add(truck, { label: 'truck' })
fieldFacts.add(yards, { label: 'yards', unit: 'yd3', step: '1/4', plain: ['1/4', '12'] })
fieldFacts.add(batchedAt, { label: 'batched' })
fieldFacts.add(limit, { label: 'limit', unit: 'min', step: '5', plain: ['30', '240'] })

const first = kind(
  { thread: 'job', maker: 'person' },
  z.strictObject({ load: uuid, number, truck, yards, batchedAt, limit }),
)

const allowance = z.union([siteWater, notStated])
fieldFacts.add(allowance, { label: 'waterAllowance', unit: 'gal', step: '1', plain: ['0', '40'] })

/**
 * What the supplier's ticket says of one load. The limit is whatever this ticket prints (ASTM C94/C94M-21 leaves it to
 * purchaser or producer and has it on the ticket); where none is printed it is not stated, never 90.
 */
export const ticketRecorded = widened(
  first,
  2,
  z.strictObject({
    load: uuid,
    number,
    truck,
    yards,
    batchedAt,
    limit,
    producer: stated(givenWords(80)),
    plant: stated(givenWords(80)),
    driver: stated(givenWords(60)),
    order: stated(givenText(/^[0-9A-Za-z-]{1,16}$/)),
    loadOfDay: stated(givenText(/^[1-9]\d?$/)),
    /** Yards on the whole order, and delivered with this load: running totals are never this load's yards. */
    ordered: stated(quantity('yd3', 'm3')),
    delivered: stated(quantity('yd3', 'm3')),
    mix: stated(givenWords(80)),
    strength: stated(strength),
    air: stated(airAsked),
    slump: stated(slumpAsked),
    stone: stated(stone),
    /** Printed and left the plant: neither is batched. */
    printedAt: stated(givenTime),
    leftPlantAt: stated(givenTime),
    /** Water batched, for the whole load. */
    batchedWater: stated(quantity('gal', 'L')),
    /** What the ticket prints may be added on site, for the whole load. */
    allowance: z.optional(allowance),
    cementitious: stated(quantity('lb/yd3', 'kg/m3')),
    maxWaterCement: stated(quantity('one')),
    admixtures: stated(z.union([givenWords(200), none])),
    fibre: stated(z.union([givenWords(80), none])),
    revolutions: stated(quantity('one')),
  }),
)
