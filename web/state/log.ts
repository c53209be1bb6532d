import { createSignal } from 'solid-js'
import type { Happening } from '../../api/domain/entry/make.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import type { DeviceWorld } from '../device/world.ts'
import { logEntry } from '../sync/log-entry.ts'
import type { WhoState } from './who.ts'

export type LogState = {
  /**
   * Keeps an entry on this phone. Its hash once it is kept for good; undefined where it was not, and then the alarm says
   * so, or nobody was picked on a shared phone.
   */
  log<K extends Kind>(happening: Happening<K>): Promise<string | undefined>
  /** Runs something else that keeps, a photo's bytes say, under the same alarm. */
  keep<T>(work: () => Promise<T>): Promise<T | undefined>
  /** What could not be kept: shown loudly until somebody has read it. */
  readonly alarm: () => string | undefined
  clearAlarm(): void
}

export const createLog = (
  world: DeviceWorld,
  who: Pick<WhoState, 'maker'>,
  afterwards: () => void,
): LogState => {
  const [alarm, setAlarm] = createSignal<string>()
  const keep = async <T>(work: () => Promise<T>): Promise<T | undefined> => {
    try {
      return await work()
    } catch (error) {
      setAlarm(error instanceof Error ? `${error.name}: ${error.message}` : String(error))
      return undefined
    }
  }
  return {
    keep,
    log: async (happening) => {
      const by = await who.maker()
      if (!by) return undefined
      const hash = await keep(() => logEntry(world, happening, by))
      if (hash !== undefined) afterwards()
      return hash
    },
    alarm,
    clearAlarm: () => setAlarm(undefined),
  }
}
