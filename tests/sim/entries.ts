import fc from 'fast-check'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { type BodyOf, KINDS, type Kind, VOCABULARY } from '../../api/domain/entry/registry.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { readHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { append } from '../../api/domain/log/tree.ts'
import { getMeta, putMeta, putOwn } from '../../web/sync/kept.ts'
import { FIRST_DEVICE_LOG, logEntry } from '../../web/sync/log-entry.ts'
import type { PhoneWorld } from '../../web/sync/phone-world.ts'
import { anyBody, anyTime } from '../kit/any-body.ts'
import type { Chance } from '../kit/chance.ts'

/** Every kind that a person may log in a job, photos apart: they need their bytes. */
const JOB_KINDS = (Object.keys(KINDS) as Kind[]).filter(
  (kind) => KINDS[kind].maker === 'person' && KINDS[kind].thread === 'job' && kind !== 'photo.taken',
)
const FIRST_RELEASE = JOB_KINDS.filter((kind) => KINDS[kind].since === 1)
const COMPANY_KINDS = (Object.keys(KINDS) as Kind[]).filter((kind) => KINDS[kind].thread === 'company')

const NAMES = [1, 2, 3].map((n) => `018f0000-0000-7000-8000-00000000000${n}`)
const POOLS = {
  uuid: fc.constantFrom(...NAMES),
  hash: fc.constantFrom(...[1, 2, 3].map((n) => String(n).repeat(64))),
  time: anyTime,
}

/** Drawn once a kind: what bodies there are is the schemas' matter, which of them comes is the seed's. */
const drawn = new Map<Kind, readonly BodyOf<Kind>[]>()
const bodiesOf = (kind: Kind): readonly BodyOf<Kind>[] => {
  const before = drawn.get(kind)
  if (before) return before
  const bodies = fc.sample(anyBody(kind, POOLS), { numRuns: 12, seed: 7 })
  drawn.set(kind, bodies)
  return bodies
}

/** Logs something that the door takes from whoever may; an entry now and then corrects others. */
export const logAny = (world: PhoneWorld, chance: Chance, job: string, said: readonly string[]) => {
  const kind = chance.pick(chance.chance(0.5) ? FIRST_RELEASE : JOB_KINDS)
  const corrects =
    said.length > 0 && (kind === 'entry.withdrawn' || chance.chance(0.1))
      ? [...new Set([chance.pick(said), chance.pick(said)])].sort()
      : kind === 'entry.withdrawn'
        ? ['0'.repeat(64)]
        : undefined
  return logEntry(world, {
    job,
    kind,
    body: chance.pick(bodiesOf(kind)),
    occurredAt: world.localTime(),
    source: chance.pick(['tap', 'voice', 'photo', 'import'] as const),
    ...(corrects ? { corrects } : {}),
  })
}

const LONG = [
  { large: 'x'.repeat(16_400), long: 'x'.repeat(600) },
  { large: '€'.repeat(5_500), long: '€'.repeat(600) },
]

type Place = { readonly job: string; readonly company: string }

type Poison = (world: PhoneWorld, chance: Chance, place: Place) => Promise<string>

/** Under an id that another entry has, or another phone's next one will have. */
const takenId: Poison = (world, chance, { job }) =>
  log(
    { ...world, now: () => 1_700_000_000_000, random: (n) => new Uint8Array(n).fill(chance.below(2)) },
    job,
    'load.arrived',
    { load: chance.pick(NAMES) },
  )

/** Entries that the door must not take; none of them may hold up what comes after. */
const POISON: readonly Poison[] = [
  (world, _, { job }) => log(world, job, 'load.arrived', { load: NAMES[0], surprise: 1 }),
  (world, _, { job }) => log(world, job, 'load.arrived', { load: 1.5 }),
  // Too large by a little, in characters or only in bytes; or of a fitting size, and too long a text.
  (world, chance, { job }) =>
    log(world, job, 'remark.made', {
      remark: { lang: 'en', text: chance.pick(LONG)[chance.chance(0.2) ? 'large' : 'long'] },
    }),
  (world, _, { company }) => log(world, company, 'load.arrived', { load: NAMES[0] }),
  (world, _, { job }) => log(world, job, 'person.added', { person: NAMES[0], name: 'Nobody', role: 'owner' }),
  (world, _, { job }) => log(world, job, 'entry.withdrawn', {}),
  (world, chance, { company }) =>
    log(world, company, chance.pick(COMPANY_KINDS.filter((k) => KINDS[k].maker === 'server')), {}),
  takenId,
  takenId,
  takenId,
  // Of a kind, or in a form, that no release knows.
  (world, _, { job }) => logRaw(world, job, (e) => canonicalJson({ ...e, kind: 'load.tasted' })),
  (world, _, { job }) => logRaw(world, job, (e) => `${canonicalJson(e)} `),
  (world, _, { job }) => logRaw(world, job, (e) => canonicalJson({ ...e, device: NAMES[1] })),
  (world, _, { job }) => logRaw(world, job, () => `not an entry ${world.now()}`),
]

export const logPoison = (world: PhoneWorld, chance: Chance, place: Place): Promise<string> =>
  chance.pick(POISON)(world, chance, place)

/** An entry of a release that this server does not know: a phone one release ahead. */
export const logNewer = (world: PhoneWorld, job: string): Promise<string> =>
  logRaw(world, job, (e) => canonicalJson({ ...e, v: VOCABULARY + 1, kind: 'load.tasted', taste: 'salt' }))

const log = (world: PhoneWorld, job: string, kind: Kind, body: Record<string, unknown>): Promise<string> =>
  logEntry(world, {
    job,
    kind,
    body: body as BodyOf<Kind>,
    occurredAt: world.localTime(),
    source: 'tap',
  })

/** Keeps a text of one's own at the end of the device's log, as `logEntry` keeps what it makes. */
const logRaw = (
  world: PhoneWorld,
  job: string,
  textOf: (entry: Record<string, unknown>) => string,
): Promise<string> =>
  world.store.transact(async (tx) => {
    const identity = (await getMeta(tx, 'identity'))!
    const text = textOf({
      v: 1,
      id: uuidV7(world.now(), world.random),
      job,
      kind: 'load.arrived',
      body: { load: NAMES[0]! },
      occurredAt: world.localTime(),
      recordedAt: world.localTime(),
      boot: world.boot,
      mono: 1,
      device: identity.device,
      by: { person: identity.person, known: 'own-device' },
      source: 'tap',
    })
    const hash = hashEntry(toUtf8(text), world.sha256)
    const kept = (await getMeta(tx, 'device-log')) ?? FIRST_DEVICE_LOG
    await putOwn(tx, {
      epoch: kept.epoch,
      index: kept.whole.size,
      hash,
      job,
      text,
      state: { is: 'waiting' },
    })
    await putMeta(tx, 'device-log', { ...kept, whole: append(kept.whole, readHex(hash)!, world.sha256) })
    return hash
  })
