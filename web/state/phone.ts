import { createContext, createSignal, onCleanup, useContext } from 'solid-js'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { type LocalTime, toLocalTime } from '../../api/domain/time.ts'
import { makeTabs } from '../device/tabs.ts'
import { type DeviceWorld, makeDeviceWorld } from '../device/world.ts'
import type { Identity } from '../sync/kept.ts'
import { createJobs, type JobsState } from './jobs.ts'
import { createLanguage, type Dictionary, type LanguageState } from './language.ts'
import { createLog, type LogState } from './log.ts'
import { createOwn, type OwnEntries } from './own.ts'
import { createRoute, type RouteState } from './route.ts'
import { createSnapshot, type SnapshotState } from './snapshot.ts'
import { createSync, type SyncState } from './sync.ts'
import { createWho, type WhoState } from './who.ts'

/** Everything that a screen can ask for. */
export type Phone = SnapshotState &
  LanguageState &
  LogState &
  RouteState & {
    readonly world: DeviceWorld
    readonly jobs: JobsState
    readonly own: OwnEntries
    readonly who: WhoState
    readonly sync: SyncState
    readonly identity: () => Identity | undefined
    /** The device's clock, for screens; moves every few seconds. */
    readonly now: () => number
    readonly newId: () => string
    readonly localNow: (zone: string) => LocalTime
  }

const CLOCK_STEP_MS = 2_000

export const createPhone = (dictionary: Dictionary): Phone => {
  const tabs = makeTabs()
  const world = makeDeviceWorld(() => {
    tabs.announce()
    snapshot.refresh()
  })
  const snapshot = createSnapshot(world)
  const own = createOwn(snapshot.snapshot)
  const identity = () => snapshot.snapshot()?.identity
  const who = createWho(identity, world)
  const sync = createSync(world, () => own.unsent() + own.photosWaiting() > 0)
  tabs.onNews(snapshot.refresh)
  snapshot.refresh()
  sync.ask()
  return {
    world,
    ...snapshot,
    ...createLanguage(dictionary),
    ...createRoute(),
    ...createLog(world, who, sync.ask),
    jobs: createJobs(snapshot.snapshot, who.person),
    own,
    who,
    sync,
    identity,
    now: createNow(world.now),
    newId: () => uuidV7(world.now(), world.random),
    localNow: (zone) => toLocalTime(world.now(), zone),
  }
}

const createNow = (now: () => number): (() => number) => {
  const [at, setAt] = createSignal(now())
  const timer = setInterval(() => setAt(now()), CLOCK_STEP_MS)
  onCleanup(() => clearInterval(timer))
  return at
}

export const PhoneContext = createContext<Phone>()

export const usePhone = (): Phone => {
  const phone = useContext(PhoneContext)
  if (!phone) throw new Error('no phone around this component')
  return phone
}
