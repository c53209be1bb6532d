import { type Enrolled, enrolled, invited } from '../api/contract/messages/enrol.ts'
import { uuidV7 } from '../api/domain/entry/make.ts'
import { toBase64 } from '../api/domain/log/encoding.ts'
import { toLocalTime } from '../api/domain/time.ts'
import type { RandomBytes } from '../api/domain/world.ts'
import { signingKey } from '../api/server/keys.ts'
import { sha256, verifySignature } from '../api/server/senses.ts'
import { readAnswer } from '../web/sync/answer.ts'
import { putMeta } from '../web/sync/kept.ts'
import type { PhoneWorld } from '../web/sync/phone-world.ts'
import { syncRound } from '../web/sync/round.ts'
import { jsonBody } from '../web/sync/sign-in.ts'
import type { ScenarioClock } from './clock.ts'
import { createScenarioStore } from './phone-store.ts'
import { type Answerer, lineTo } from './wire.ts'

/** A phone or an office computer of the scenario: the sync as shipped, over a store, a clock and a line of the scenario. */
export type Device = {
  /** As the program sees it since it was last started. */
  readonly world: () => PhoneWorld
  /** The program is started anew: a new boot, and a monotonic clock from zero. */
  start(): void
  setUp(code: string, company: string, owner: string): Promise<Enrolled>
  join(code: string): Promise<Enrolled>
  /** A one-time code for a further device of this person. */
  invite(person: string, use: 'phone' | 'office'): Promise<string>
  /** Sends and takes all there is; throws where the server refuses anything, which a scenario never means. */
  sync(): Promise<void>
}

export const createDevice = (given: {
  readonly zone: string
  readonly clock: ScenarioClock
  readonly chance: RandomBytes
  readonly answer: Answerer
}): Device => {
  const { zone, clock, chance } = given
  const store = createScenarioStore()
  const key = signingKey(chance(32))
  const wire = lineTo(given.answer)
  const started = (): PhoneWorld => {
    const from = clock.now()
    return {
      now: clock.now,
      mono: () => clock.now() - from,
      random: chance,
      sha256,
      verify: verifySignature,
      store,
      wire,
      sign: key.sign,
      publicKey: async () => key.publicKey,
      localTime: () => toLocalTime(clock.now(), zone),
      boot: uuidV7(from, chance),
    }
  }
  let world = started()

  const enrol = async (path: string, request: Record<string, unknown>): Promise<Enrolled> => {
    const sent = { ...request, key: toBase64(key.publicKey) }
    const answer = readAnswer(await wire({ method: 'POST', path, ...jsonBody(sent) }), enrolled)
    if (!answer.ok) throw new Error(`a device could not join: ${answer.refused.code} ${answer.refused.at}`)
    await store.transact((tx) => putMeta(tx, 'identity', answer.value))
    return answer.value
  }
  return {
    world: () => world,
    start: () => {
      world = started()
    },
    setUp: (code, company, owner) => enrol('/api/set-up', { code, company, owner, zone, use: 'phone' }),
    join: (code) => enrol('/api/join', { code }),
    invite: async (person, use) => {
      const request = { method: 'POST', path: '/api/invite', ...jsonBody({ person, use }) } as const
      const answer = readAnswer(await wire(request), invited)
      if (!answer.ok) throw new Error(`no code: ${answer.refused.code} ${answer.refused.at}`)
      return answer.value.code
    },
    sync: async () => {
      const round = await syncRound(world)
      const whole = round.is === 'synced' && (round.photos?.left ?? 0) === 0
      if (!whole) throw new Error(`a round did not end well: ${JSON.stringify(round)}`)
    },
  }
}
