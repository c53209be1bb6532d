import type { LocalTime } from '../../api/domain/time.ts'
import type { Senses, Sign } from '../../api/domain/world.ts'
import type { PhoneStore } from './phone-store.ts'
import type { Wire } from './wire.ts'

/**
 * Everything outside that the phone's sync may touch. It has no timer, network, clock or chance of its own, so a
 * simulator runs it as shipped.
 */
export type PhoneWorld = Senses & {
  readonly store: PhoneStore
  readonly wire: Wire
  /** This device's public key, 32 bytes. */
  readonly publicKey: () => Promise<Uint8Array>
  /** Signs with this device's key. */
  readonly sign: Sign
  /** The device's clock as a local time with its offset. */
  readonly localTime: () => LocalTime
  /** New each time the program starts. */
  readonly boot: string
}
