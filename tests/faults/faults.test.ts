import { expect, test } from 'vitest'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { random, sha256 } from '../../api/server/senses.ts'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'
import { createPhone, createWire } from '../kit/phone.ts'
import { openTestDatabase, walSyncs } from '../kit/postgres.ts'
import { killOneHouse, killTwoServers, urlOf } from './house.ts'

const SEED = 20260421

test('[L46] 20 SIGKILLs of server or PostgreSQL while four phones push lose, double and alter nothing', async () => {
  const report = await killOneHouse(20, SEED)
  expect(report.broken).toEqual([])
  expect(report.killedDatabase).toBeGreaterThan(2)
  expect(report.entries).toBeGreaterThan(200)
}, 300_000)

test('[L46] two servers on one database, each killed in turn, lose, double and alter nothing', async () => {
  const database = await openTestDatabase()
  try {
    const report = await killTwoServers(8, SEED, urlOf(database.target))
    expect(report.broken).toEqual([])
    expect(report.entries).toBeGreaterThan(100)
  } finally {
    await database.close()
  }
}, 300_000)

test('[L46] 100 pushes one after another cause at least 100 syncs of the write-ahead log', async () => {
  const database = await openTestDatabase()
  const stores = createPostgresStore(database.clients)
  const chance = { ...createChance(1), bytes: random }
  const house = await openHouse({ chance, now: Date.now, stores, photos: createPhotoMemory(sha256) })
  try {
    const phone = createPhone({ chance, now: Date.now, wire: createWire(async (r) => house.app.fetch(r)) })
    await phone.setUp(await house.setUpCode())
    const job = uuidV7(Date.now(), random)
    const before = await walSyncs(database.clients.raw)
    for (let i = 0; i < 100; i++) {
      await phone.log(job, 'remark.made', { remark: { lang: 'en', text: `remark ${i}` } })
      expect((await syncRound(phone)).push?.is).toBe('pushed')
    }
    // An idle backend reports its counts after ten seconds at the latest.
    await expect
      .poll(async () => (await walSyncs(database.clients.raw)) - before, { timeout: 20_000, interval: 500 })
      .toBeGreaterThanOrEqual(100)
  } finally {
    await house.close()
    await stores.end()
    await database.close()
  }
})
