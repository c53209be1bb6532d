import { enrolled } from '../../api/contract/messages/enrol.ts'
import type { Happening } from '../../api/domain/entry/make.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { toBase64 } from '../../api/domain/log/encoding.ts'
import { toLocalTime } from '../../api/domain/time.ts'
import { signingKey } from '../../api/server/keys.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { putMeta } from '../../web/sync/kept.ts'
import { logEntry } from '../../web/sync/log-entry.ts'
import type { PhoneStore } from '../../web/sync/phone-store.ts'
import type { PhoneWorld } from '../../web/sync/phone-world.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import type { Wire, WireRequest } from '../../web/sync/wire.ts'
import type { Chance } from './chance.ts'
import type { Signatures } from './ideal-signatures.ts'
import { createMemoryPhoneStore } from './memory-phone-store.ts'

export const ZONE = 'America/Chicago'

/** Anything that answers requests as a fetch would: an app in this process, or a real server. */
export type Answerer = (request: Request) => Promise<Response>

/** A wire with a cookie jar of its own, straight to whoever answers. */
export const createWire = (answer: Answerer, base = 'http://house.test'): Wire => {
  const cookies = new Map<string, string>()
  return async (request: WireRequest) => {
    const headers = new Headers(request.headers)
    if (cookies.size > 0)
      headers.set('cookie', [...cookies].map(([name, value]) => `${name}=${value}`).join('; '))
    const body = request.body as BodyInit | undefined
    const response = await answer(
      new Request(base + request.path, {
        method: request.method,
        headers,
        ...(body === undefined ? {} : { body }),
      }),
    )
    for (const line of response.headers.getSetCookie()) {
      const [pair] = line.split(';')
      const [name, ...value] = pair!.split('=')
      cookies.set(name!, value.join('='))
    }
    return {
      status: response.status,
      headers: response.headers,
      body: new Uint8Array(await response.arrayBuffer()),
    }
  }
}

export type Phone = PhoneWorld & {
  readonly setUp: (code: string, names?: { company?: string; owner?: string }) => Promise<void>
  readonly join: (code: string) => Promise<void>
  /** Logs something as happening now. Returns the entry's hash. */
  readonly log: <K extends Kind>(
    job: string,
    kind: K,
    body: Happening<K>['body'],
    more?: Partial<Happening<K>>,
  ) => Promise<string>
}

/** A phone as shipped, but for its store, clock, chance and wire. */
export const createPhone = (given: {
  readonly chance: Chance
  readonly now: () => number
  readonly wire: Wire
  readonly store?: PhoneStore
  readonly seed?: Uint8Array
  /** Other signatures than Ed25519. */
  readonly signatures?: Pick<Signatures, 'pair' | 'verify'>
  readonly mono?: () => number
  readonly localTime?: () => string
}): Phone => {
  const { chance, now, wire } = given
  const store = given.store ?? createMemoryPhoneStore()
  const key = (given.signatures?.pair ?? signingKey)(given.seed ?? chance.bytes(32))
  const world: PhoneWorld = {
    now,
    mono: given.mono ?? now,
    random: chance.bytes,
    sha256,
    verify: given.signatures?.verify ?? verifySignature,
    store,
    wire,
    sign: key.sign,
    publicKey: async () => key.publicKey,
    localTime: given.localTime ?? (() => toLocalTime(now(), ZONE)),
    boot: uuidV7(now(), chance.bytes),
  }
  const enrol = async (path: string, request: Record<string, unknown>): Promise<void> => {
    const sent = { ...request, key: toBase64(key.publicKey) }
    const answer = readAnswer(await wire({ method: 'POST', path, ...jsonBody(sent) }), enrolled)
    if (!answer.ok) throw new Error(`not enrolled: ${answer.refused.code} ${answer.refused.at}`)
    await store.transact((tx) => putMeta(tx, 'identity', answer.value))
  }
  return {
    ...world,
    setUp: (code, names = {}) =>
      enrol('/api/set-up', {
        code,
        company: names.company ?? 'Brindlefork Flatwork',
        zone: ZONE,
        owner: names.owner ?? 'Curt',
        use: 'phone',
      }),
    join: (code) => enrol('/api/join', { code }),
    log: (job, kind, body, more = {}) =>
      logEntry(world, { job, kind, body, occurredAt: world.localTime(), source: 'tap', ...more }),
  }
}
