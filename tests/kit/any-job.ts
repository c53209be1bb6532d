import fc from 'fast-check'
import { type Happening, makeEntry } from '../../api/domain/entry/make.ts'
import { isUnread, readEntry } from '../../api/domain/entry/read.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { sha256 } from '../../api/server/senses.ts'
import { anyBody } from './any-body.ts'
import { createChance } from './chance.ts'

/** The job of these entries, and few ids for its loads, parts and people, so that entries speak of the same ones. */
export const ANY_JOB = '019db000-0000-7000-8000-00000000ce11'
const IDS = [1, 2, 3].map((n) => `019db000-0000-7000-8000-00000000000${n}`)
const DEVICES = ['a', 'b'].map((n) => `019db000-0000-7000-8000-0000000000d${n}`)
const BOOT = '019db000-0000-7000-8000-0000000000b0'

/** One morning, close together, in two offsets. */
const MORNING = ['06:58', '07:05', '07:33', '07:41', '07:45', '08:08', '08:40'].flatMap((clock, i) => [
  `2026-04-21T${clock}-05:00`,
  `2026-04-21T${String(13 + Math.min(i, 1)).padStart(2, '0')}${clock.slice(2)}+02:00`,
])
/**
 * Equal, backwards and across days; the hour that a spring night skips and the one that an autumn night doubles; 29
 * February; the ends of what a time can say.
 */
const TIMES = [
  '2026-04-21T07:05-05:00',
  '2026-04-21T07:05:00.001-05:00',
  '2026-04-21T07:41-05:00',
  '2026-04-21T14:41+02:00',
  '2026-04-21T08:08-05:00',
  '2026-04-21T18:10-05:00',
  '2026-04-21T23:58-05:00',
  '2026-04-22T00:07-05:00',
  '2026-04-22T07:00-05:00',
  '2026-04-23T21:30-05:00',
  '2026-03-08T01:59-06:00',
  '2026-03-08T03:00-05:00',
  '2026-11-01T01:30-05:00',
  '2026-11-01T01:10-06:00',
  '2028-02-29T16:00-06:00',
  '0001-01-01T00:00+14:00',
  '9999-12-31T23:59:59.999-12:00',
]

/** One entry of a random job, as data: what a failing example is read in. */
export type Step = {
  readonly kind: Kind
  readonly body: object
  readonly at: string
  readonly recordedAt: string
  /** Of which phone. */
  readonly phone: 0 | 1
  /** Which of the steps before it this one corrects, or takes back. */
  readonly corrects: readonly number[]
  readonly receivedAt?: number
}

/** A random job, and the same set of entries once more in another order, some of them repeated. */
export type AnyJob = {
  readonly steps: readonly Step[]
  readonly unread: number
  readonly order: readonly number[]
  readonly repeated: readonly number[]
}

const anyTime = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...MORNING) },
  { weight: 1, arbitrary: fc.constantFrom(...TIMES) },
)
const pools = {
  uuid: fc.constantFrom(...IDS),
  hash: fc.constantFrom('ab'.repeat(32), 'cd'.repeat(32)),
  time: anyTime,
  // What a pour is told in: yards, gallons, inches, per cent, minutes, pounds.
  amounts: ['0', '1/2', '2', '3 1/2', '4', '5', '6', '6.5', '8', '12', '40', '90', '233.6', '580'],
}

const JOB_KINDS = (Object.keys(KINDS) as Kind[]).filter((kind) => KINDS[kind].thread === 'job')
/** Kinds on which most figures and most of the fold turn are drawn more often. */
const OFTEN: Partial<Record<Kind, number>> = {
  'entry.withdrawn': 7,
  'loads.joined': 2,
  'ticket.recorded': 12,
  'water.added': 10,
  'load.rejected': 2,
  'load.arrived': 4,
  'discharge.started': 7,
  'discharge.ended': 7,
  'slump.measured': 3,
  'air.measured': 2,
  'mix.ordered': 2,
  'concrete.ordered': 3,
  'balance.ordered': 2,
  'concrete.left': 3,
  'load.placed': 2,
  'placement.planned': 2,
}

const given = (text: string, unit: string) => ({ is: 'given', text, unit })
const notStated = { is: 'not-stated' }
/** Entries that say all that a figure needs: drawn member by member, few would. */
const WHOLE: readonly { readonly kind: Kind; readonly body: object }[] = [
  {
    kind: 'ticket.recorded',
    body: {
      number: notStated,
      truck: notStated,
      yards: given('8', 'yd3'),
      batchedAt: { is: 'given', at: '2026-04-21T06:50-05:00' },
      limit: { ...given('90', 'min'), to: 'discharge-ended' },
      batchedWater: given('233.6', 'gal'),
      cementitious: given('580', 'lb/yd3'),
      allowance: given('16', 'gal'),
    },
  },
  {
    kind: 'water.added',
    body: {
      amount: given('8', 'gal'),
      inDrum: { yards: given('5', 'yd3'), how: 'by-eye', from: given('4', 'yd3'), to: given('6', 'yd3') },
    },
  },
  { kind: 'concrete.left', body: { yards: { is: 'none' }, how: 'by-eye' } },
]
const anyWhole = fc
  .tuple(fc.constantFrom(...WHOLE), fc.constantFrom(...IDS))
  .map(([{ kind, body }, load]) => ({ kind, body: { ...body, load } }))

const named = fc.array(fc.nat(40), { minLength: 1, maxLength: 2 })

const anyStep: fc.Arbitrary<Step> = fc
  .oneof(
    ...JOB_KINDS.map((kind) => ({
      weight: OFTEN[kind] ?? 1,
      arbitrary: fc.record({ kind: fc.constant<Kind>(kind), body: anyBody(kind, pools) }),
    })),
    { weight: 14, arbitrary: anyWhole },
  )
  .chain(({ kind, body }) =>
    fc.record({
      kind: fc.constant(kind),
      body: fc.constant<object>(body),
      at: anyTime,
      recordedAt: anyTime,
      phone: fc.constantFrom<0 | 1>(0, 1),
      corrects:
        kind === 'entry.withdrawn' ? named : fc.oneof({ weight: 5, arbitrary: fc.constant([]) }, named),
      receivedAt: fc.option(fc.nat(4_000_000_000_000), { nil: undefined, freq: 3 }),
    }),
  )
  .map(({ receivedAt, ...step }) => (receivedAt === undefined ? step : { ...step, receivedAt }))

export const anyJob: fc.Arbitrary<AnyJob> = fc.record({
  steps: fc.array(anyStep, { minLength: 1, maxLength: 26, size: 'max' }),
  unread: fc.nat(1),
  order: fc.array(fc.nat(99), { minLength: 6, maxLength: 6 }),
  repeated: fc.array(fc.nat(25), { maxLength: 6 }),
})

/** The entries of a job, made by its two phones one after the other and read again as anybody reads them. */
export const entriesOf = ({ steps, unread }: AnyJob): LoggedEntry[] => {
  const chance = createChance(71340)
  const entries: LoggedEntry[] = []
  for (const { kind, body, at, recordedAt, phone, corrects, receivedAt } of steps) {
    const named = entries.length === 0 ? [] : corrects.map((i) => entries[i % entries.length]!.hash)
    const server = kind === 'photo.received'
    const photo = kind === 'photo.taken' && 'photo' in body ? { evidence: [String(body.photo)] } : {}
    const happening = {
      job: ANY_JOB,
      kind,
      body,
      occurredAt: at,
      source: server ? 'server' : 'tap',
      corrects: server ? [] : named,
      ...photo,
    } as Happening<Kind>
    const bytes = makeEntry(
      happening,
      {
        device: DEVICES[phone]!,
        boot: BOOT,
        by: server ? { known: 'server' } : { known: 'own-device', person: IDS[phone]! },
      },
      { now: 1_776_772_800_000 + entries.length, recordedAt, mono: entries.length },
      chance.bytes,
    )
    const read = readEntry(bytes, sha256)
    // A withdrawal with nothing to withdraw is no entry: the first of a job.
    if (!read.ok && kind === 'entry.withdrawn' && named.length === 0) continue
    if (!read.ok || isUnread(read.value)) throw new Error(`not read: ${JSON.stringify(read)}`)
    entries.push(receivedAt === undefined ? read.value : { ...read.value, receivedAt })
  }
  for (let i = 0; i < unread; i++) entries.push({ hash: 'ff'.repeat(32), newer: 99 })
  return entries
}

/** The same set in another order; some entries again, as one's own that are not known to be received. */
export const otherwise = (entries: readonly LoggedEntry[], { order, repeated }: AnyJob): LoggedEntry[] => {
  if (entries.length === 0) return []
  const again = repeated.map((i) => {
    const { receivedAt: _, ...own } = entries[i % entries.length]!
    return own
  })
  const keyOf = (i: number) => (order[i % order.length]! * (i + 7)) % 101
  return [...entries, ...again]
    .map((e, i) => [keyOf(i), i, e] as const)
    .sort((a, b) => a[0] - b[0] || b[1] - a[1])
    .map(([, , e]) => e)
}
