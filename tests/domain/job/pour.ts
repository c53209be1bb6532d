import type { Happening } from '../../../api/domain/entry/make.ts'
import { makeEntry } from '../../../api/domain/entry/make.ts'
import { isUnread, readEntry } from '../../../api/domain/entry/read.ts'
import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { createChance } from '../../kit/chance.ts'

/** Tern Court, the job of these tests, and its loads. */
export const JOB = '019db000-0000-7000-8000-00000000ce11'
export const FIRST = '019db000-0000-7000-8000-000000000001'
export const SECOND = '019db000-0000-7000-8000-000000000002'

const CURT = '019db000-0000-7000-8000-0000000000c0'
const PHONE = '019db000-0000-7000-8000-0000000000d0'
const BOOT = '019db000-0000-7000-8000-0000000000b0'
const chance = createChance(71340)

type More = {
  readonly at?: string
  readonly recordedAt?: string
  readonly receivedAt?: number
  readonly corrects?: readonly string[]
}

/** An entry as a phone makes it and as everyone reads it. Without a time it happens at 07:05 and is logged at once. */
export const entry = <K extends Kind>(kind: K, body: Happening<K>['body'], more: More = {}): KnownEntry => {
  const at = more.at ?? '2026-04-21T07:05-05:00'
  const server = kind === 'photo.received'
  const evidence = 'photo' in body && !server ? { evidence: [String(body.photo)] } : {}
  const bytes = makeEntry(
    {
      job: JOB,
      kind,
      body,
      occurredAt: at,
      source: server ? 'server' : 'tap',
      corrects: more.corrects ?? [],
      ...evidence,
    },
    { device: PHONE, boot: BOOT, by: server ? { known: 'server' } : { known: 'own-device', person: CURT } },
    { now: Date.parse(at), recordedAt: more.recordedAt ?? at, mono: 0 },
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
