import { uuidV7 } from '../../api/domain/entry/make.ts'
import { type App, createApp } from '../../api/server/app.ts'
import { keysFrom } from '../../api/server/keys.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import type { PhotoStore } from '../../api/server/photo/photo-store.ts'
import { noPhotoViews, type PhotoViews } from '../../api/server/photo/views/photo-views.ts'
import { makeSetUpCode } from '../../api/server/routes/enrol.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import type { ServerWorld } from '../../api/server/world.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import type { Chance } from './chance.ts'

export type House = App & { readonly world: ServerWorld; setUpCode(): Promise<string> }

export const MASTER_KEY = new Uint8Array(32).fill(7)

/** The server as shipped, over a world that a test gives it; by default in memory. */
export const openHouse = async (given: {
  readonly chance: Chance
  readonly now: () => number
  readonly stores?: Stores
  readonly photos?: PhotoStore
  readonly photoViews?: PhotoViews
  readonly record?: ServerWorld['record']
  readonly report?: ServerWorld['report']
  readonly signatures?: Pick<ServerWorld, 'verify' | 'keysOf'>
}): Promise<House> => {
  const { chance, now } = given
  const stores = given.stores ?? createMemoryStore()
  const world: ServerWorld = {
    now,
    mono: now,
    random: chance.bytes,
    sha256,
    verify: given.signatures?.verify ?? verifySignature,
    store: stores.log,
    accounts: stores.accounts,
    views: stores.views,
    photos: given.photos ?? createPhotoMemory(sha256),
    photoViews: given.photoViews ?? noPhotoViews,
    keysOf: given.signatures?.keysOf ?? keysFrom(MASTER_KEY),
    boot: uuidV7(now(), chance.bytes),
    release: '0.0.0-test',
    demo: false,
    record: given.record ?? (async () => undefined),
    report: given.report ?? (() => {}),
  }
  const app = await createApp(world)
  return {
    ...app,
    world,
    setUpCode: async () => {
      const code = await makeSetUpCode(world)
      if (!code) throw new Error('there is a company already')
      return code
    },
  }
}
