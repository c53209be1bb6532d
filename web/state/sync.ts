import { createSignal } from 'solid-js'
import { makeLive } from '../device/live.ts'
import { askToPersist, type Persistence } from '../device/persist.ts'
import { makeTicker } from '../device/ticker.ts'
import type { DeviceWorld } from '../device/world.ts'
import { getMeta } from '../sync/kept.ts'
import { type RoundOutcome, syncRound } from '../sync/round.ts'

export type LastRound =
  | { readonly at: number; readonly outcome: RoundOutcome }
  /** The round itself failed: a bug of ours, or storage that gave out. */
  | { readonly at: number; readonly error: string }

export type SyncState = {
  readonly running: () => boolean
  readonly last: () => LastRound | undefined
  /** The device clock at the end of the last round that reached the server and was taken. */
  readonly lastSynced: () => number | undefined
  readonly hasNetwork: () => boolean
  readonly persistence: () => Persistence | undefined
  ask(): void
}

/** The phone's sync, as screens see it. `waits` says whether something is still to be sent. */
export const createSync = (world: DeviceWorld, waits: () => boolean): SyncState => {
  const [running, setRunning] = createSignal(false)
  const [last, setLast] = createSignal<LastRound>()
  const [lastSynced, setLastSynced] = createSignal<number>()
  const [connected, setConnected] = createSignal(navigator.onLine)
  const [persistence, setPersistence] = createSignal<Persistence>()
  addEventListener('online', () => setConnected(true))
  addEventListener('offline', () => setConnected(false))

  const live = makeLive(() => ticker.ask())
  const round = async (): Promise<void> => {
    if (!(await world.store.read((tx) => getMeta(tx, 'identity')))) return
    setRunning(true)
    try {
      const outcome = await syncRound(world)
      setLast({ at: world.now(), outcome })
      if (outcome.is === 'synced') {
        setLastSynced(world.now())
        live.reopen()
      }
    } catch (error) {
      setLast({ at: world.now(), error: String(error) })
      throw error
    } finally {
      setRunning(false)
    }
  }
  const stopped = (): boolean => {
    const round = last()
    return round !== undefined && ('error' in round || round.outcome.is === 'stopped')
  }
  // A server that refuses, or a bug, is not asked every few seconds; a network that is gone may be back any moment.
  const ticker = makeTicker(round, () => {
    if (waits() && !stopped()) return 'at-once'
    return live.isOpen() && !stopped() ? 'seldom' : 'soon'
  })
  void askToPersist().then(setPersistence)

  const reached = (): boolean => {
    const round = last()
    return !round || !('outcome' in round) || round.outcome.is !== 'no-network'
  }
  return {
    running,
    last,
    lastSynced,
    hasNetwork: () => connected() && reached(),
    persistence,
    ask: ticker.ask,
  }
}
