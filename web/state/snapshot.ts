import { createSignal } from 'solid-js'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import type { DeviceWorld } from '../device/world.ts'
import { phoneEntries, type ReadTexts } from '../sync/entries.ts'
import { type Evidence, getMeta, type Identity, type OwnEntry, type PhotoKept } from '../sync/kept.ts'

/** All that this phone holds, as of one moment. Everything shown is derived from it. */
export type Snapshot = {
  readonly identity: Identity | undefined
  readonly logged: readonly LoggedEntry[]
  readonly own: readonly OwnEntry[]
  readonly photos: readonly PhotoKept[]
  readonly evidence: readonly Evidence[]
  readonly clockOffset: number
}

export type SnapshotState = {
  /** Undefined until the store has answered for the first time. */
  readonly snapshot: () => Snapshot | undefined
  /** Why the store can't be read, if it can't. */
  readonly failure: () => unknown
  refresh(): void
}

/** Reads the store anew after each write, of this tab or another; writes that come meanwhile are read in one go. */
export const createSnapshot = (world: DeviceWorld): SnapshotState => {
  const [snapshot, setSnapshot] = createSignal<Snapshot>()
  const [failure, setFailure] = createSignal<unknown>()
  const known: ReadTexts = new Map()
  let reading = false
  let again = false
  const read = async (): Promise<void> => {
    reading = true
    do {
      again = false
      try {
        const read = await readSnapshot(world, known)
        setFailure(undefined)
        setSnapshot(read)
      } catch (error) {
        setFailure(() => error)
      }
    } while (again)
    reading = false
  }
  return {
    snapshot,
    failure,
    refresh: () => {
      if (reading) again = true
      else void read()
    },
  }
}

const readSnapshot = (world: DeviceWorld, known: ReadTexts): Promise<Snapshot> =>
  world.store.read(async (tx) => ({
    identity: await getMeta(tx, 'identity'),
    ...(await phoneEntries(tx, world.sha256, known)),
    photos: await tx.list<PhotoKept>('photos'),
    evidence: (await getMeta(tx, 'evidence')) ?? [],
    clockOffset: (await getMeta(tx, 'clock-offset')) ?? 0,
  }))
