import { uuidV7 } from '../../api/domain/entry/make.ts'
import type { RandomBytes } from '../../api/domain/world.ts'
import type { PhoneWorld } from '../sync/phone-world.ts'
import { type Clock, makeClock } from './clock.ts'
import { makeDatabase } from './database.ts'
import { makeDeviceKey } from './keys.ts'
import { sha256 } from './sha256.ts'
import { type DeviceStore, makeStore } from './store.ts'
import { makeWire } from './wire.ts'

/** The world as a browser gives it: what the simulator gives the same sync from memory. */
export type DeviceWorld = Omit<PhoneWorld, 'store'> & Clock & { readonly store: DeviceStore }

const random: RandomBytes = (length) => crypto.getRandomValues(new Uint8Array(length))

export const makeDeviceWorld = (onWritten: () => void): DeviceWorld => {
  const database = makeDatabase()
  const clock = makeClock()
  return {
    ...clock,
    ...makeDeviceKey(database),
    store: makeStore(database, onWritten),
    wire: makeWire(),
    random,
    sha256,
    boot: uuidV7(clock.now(), random),
  }
}
