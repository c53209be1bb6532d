import { afterAll } from 'vitest'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { projectionSuite } from '../api/projections.suite.ts'
import { quarantineSuite } from '../api/quarantine.suite.ts'
import { openTestDatabase, type TestDatabase } from '../kit/postgres.ts'

/** What the API promises in memory it promises on PostgreSQL: an empty database for each test. */
const opened: { database: TestDatabase; end: () => Promise<void> }[] = []

afterAll(async () => {
  for (const { database, end } of opened) {
    await end()
    await database.close()
  }
}, 60_000)

const onPostgres = async (): Promise<Stores> => {
  const database = await openTestDatabase()
  const store = createPostgresStore(database.clients)
  opened.push({ database, end: store.end })
  return store
}

quarantineSuite(onPostgres)
projectionSuite(onPostgres)
