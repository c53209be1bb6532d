import type { Happening } from '../../../api/domain/entry/make.ts'
import { makeEntry } from '../../../api/domain/entry/make.ts'
import { isUnread, readEntry } from '../../../api/domain/entry/read.ts'
import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { createChance } from '../../kit/chance.ts'

/** Tern Court, the job of these tests, its loads, and the parts of its slab. */
export const JOB = '019db000-0000-7000-8000-00000000ce11'
export const FIRST = '019db000-0000-7000-8000-000000000001'
export const SECOND = '019db000-0000-7000-8000-000000000002'

export const THIRD = '019db000-0000-7000-8000-000000000003'
export const DRIVE = '019db000-0000-7000-8000-0000000000e1'
export const WALK = '019db000-0000-7000-8000-0000000000e2'
export const PATIO = '019db000-0000-7000-8000-0000000000e3'

const CURT = '019db000-0000-7000-8000-0000000000c0'
const PHONE = '019db000-0000-7000-8000-0000000000d0'
/** Marisol's phone, where an entry is not Curt's. */
export const OTHER_PHONE = '019db000-0000-7000-8000-0000000000d1'
const BOOT = '019db000-0000-7000-8000-0000000000b0'
const chance = createChance(71340)

type More = {
  readonly at?: string
  readonly recordedAt?: string
  readonly receivedAt?: number
  readonly corrects?: readonly string[]
  readonly device?: string
}

/** A clock time of the day of the pour, at the site. */
export const at = (clock: string): string => `2026-04-21T${clock}-05:00`

/** An entry as a phone makes it and as everyone reads it. Without a time it happens at 07:05 and is logged at once. */
export const entry = <K extends Kind>(kind: K, body: Happening<K>['body'], more: More = {}): KnownEntry => {
  const occurredAt = more.at ?? at('07:05')
  const server = kind === 'photo.received'
  const evidence = 'photo' in body && !server ? { evidence: [String(body.photo)] } : {}
  const bytes = makeEntry(
    {
      job: JOB,
      kind,
      body,
      occurredAt,
      source: server ? 'server' : 'tap',
      corrects: more.corrects ?? [],
      ...evidence,
    },
    {
      device: more.device ?? PHONE,
      boot: BOOT,
      by: server ? { known: 'server' } : { known: 'own-device', person: CURT },
    },
    { now: Date.parse(occurredAt), recordedAt: more.recordedAt ?? occurredAt, mono: 0 },
    chance.bytes,
  )
  const read = readEntry(bytes, sha256)
  if (!read.ok || isUnread(read.value)) throw new Error(`not read: ${JSON.stringify(read)}`)
  return more.receivedAt === undefined ? read.value : { ...read.value, receivedAt: more.receivedAt }
}

type TicketBody = Happening<'ticket.recorded'>['body']
const notStated = { is: 'not-stated' } as const

/** Ticket 71340 of truck 14, batched at 07:05, 8 yd³, 90 minutes to the end of discharge, but for what is given. */
export const ticket = (body: Partial<TicketBody> = {}, more: More = {}): KnownEntry =>
  entry(
    'ticket.recorded',
    {
      load: FIRST,
      number: { is: 'given', text: '71340' },
      truck: { is: 'given', text: '14' },
      yards: { is: 'given', text: '8', unit: 'yd3' },
      batchedAt: { is: 'given', at: '2026-04-21T07:05-05:00' },
      limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
      ...body,
    },
    more,
  )
export const blankTicket = { yards: notStated, batchedAt: notStated, limit: notStated }

type Unit = 'gal' | 'L' | 'yd3' | 'm3' | 'in' | 'mm' | 'ft' | 'm' | 'lb/yd3' | 'kg/m3' | 'pct' | 'one'
/** A quantity as it is entered. */
export const given = <U extends Unit>(text: string, unit: U) => ({ is: 'given', text, unit }) as const

/** An event of a load that says no more than when. */
export const stamp = (
  kind: 'load.arrived' | 'discharge.started' | 'discharge.ended' | 'load.left',
  clock: string,
  load: string = FIRST,
): KnownEntry => entry(kind, { load }, { at: at(clock) })
