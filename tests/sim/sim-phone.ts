import { syncRound } from '../../web/sync/round.ts'
import type { Wire } from '../../web/sync/wire.ts'
import type { Chance } from '../kit/chance.ts'
import type { Signatures } from '../kit/ideal-signatures.ts'
import {
  createMemoryPhoneStore,
  type FaultPoint,
  type MemoryPhoneStore,
  PhoneCrashed,
} from '../kit/memory-phone-store.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'
import { createDeviceClock, type DeviceClock } from './clock.ts'
import { createRoughWire, type Weather } from './network.ts'
import type { Turns } from './turns.ts'

/** What all parts of a day share. */
export type Sim = {
  readonly chance: Chance
  readonly turns: Turns
  readonly time: () => number
  readonly weather: () => Weather
  readonly signatures: Pick<Signatures, 'pair' | 'verify'>
}

export type SimPhone = {
  readonly name: string
  readonly role: 'owner' | 'foreman' | 'crew' | 'office'
  readonly store: MemoryPhoneStore
  /** The seed of its key. */
  readonly key: Uint8Array
  readonly clock: DeviceClock
  /** The program that runs now; another after each start. */
  phone: Phone
  /** Another run of the program on the same store, with the same key: a start, an update, a second tab. */
  readonly start: () => Phone
  /** Hash of each entry of which the phone said that it is kept. */
  readonly said: Set<string>
  /** Of those, what was lost with the phone's own storage before a server had it: nobody could keep that. */
  readonly gone: Set<string>
  /** Hash and bytes of each photo of which the phone said that it is kept. */
  readonly photos: Map<string, Uint8Array>
  /** Photos that were kept before anybody logged them. */
  readonly unlogged: string[]
  /** Set where another phone holds the same key (a clone), or held another state of this one. */
  doubled: boolean
  withdrawn: boolean
}

/** The disk is full: the browser refuses the whole transaction. */
export class StorageFull extends Error {
  override readonly name = 'StorageFull'
}

export const createSimPhone = (
  name: string,
  role: SimPhone['role'],
  sim: Sim,
  send: (request: Request) => Promise<Response>,
  key: Uint8Array = sim.chance.bytes(32),
): SimPhone => {
  const { chance, turns, weather, signatures } = sim
  const store = createMemoryPhoneStore()
  const clock = createDeviceClock(sim.time, chance)
  const wire: Wire = createRoughWire({ name, wire: createWire(send), turns, chance, weather, store })
  const start = (): Phone => {
    clock.reboot()
    const { now, mono, localTime } = clock
    return createPhone({ chance, now, mono, localTime, wire, store, seed: key, signatures })
  }
  return {
    name,
    role,
    store,
    key,
    clock,
    phone: start(),
    start,
    said: new Set(),
    gone: new Set(),
    photos: new Map(),
    unlogged: [],
    doubled: false,
    withdrawn: false,
  }
}

/** What may befall a phone in any transaction of its store: before the write is durable, after, or for want of room. */
export const storeFaults =
  (store: MemoryPhoneStore, chance: Chance) =>
  (point: FaultPoint): void => {
    if (chance.chance(0.02)) {
      store.crash()
      throw new PhoneCrashed('the battery was pulled')
    }
    if (point === 'before-complete' && chance.chance(0.01)) throw new StorageFull('no room left')
  }

/** Does it, and takes what such a phone may suffer; any other failure is the product's. */
export const suffering = async (work: Promise<unknown>): Promise<void> => {
  try {
    await work
  } catch (error) {
    if (!(error instanceof PhoneCrashed || error instanceof StorageFull)) throw error
  }
}

/** Syncs until nothing is left to do; the rounds that it may take are bounded. */
export const healed = async (p: SimPhone, turns: Turns): Promise<'synced' | 'stopped'> => {
  let stopped = 0
  for (let i = 0; i < MOST_ROUNDS; i++) {
    const round = await turns.until(syncRound(p.phone))
    // A phone that was stopped says so again: it does not come and go.
    stopped = round.is === 'stopped' ? stopped + 1 : 0
    if (stopped === 2) return 'stopped'
    const pushed = round.push?.is === 'nothing-to-push' || (round.push?.is === 'pushed' && !round.push.more)
    const rests = pushed && round.pull?.is === 'up-to-date'
    if (round.is === 'synced' && rests && round.photos?.left === 0) return 'synced'
  }
  throw new Error(`${p.name} does not come to rest`)
}
const MOST_ROUNDS = 12
