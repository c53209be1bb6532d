import { afterAll } from 'vitest'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import { quarantineSuite } from '../api/quarantine.suite.ts'
import { openTestDatabase, type TestDatabase } from '../kit/postgres.ts'

/** The same rules over PostgreSQL: an empty database for each test, since ids come from a script. */
const opened: { database: TestDatabase; end: () => Promise<void> }[] = []

afterAll(async () => {
  for (const { database, end } of opened) {
    await end()
    await database.close()
  }
}, 60_000)

quarantineSuite(async () => {
  const database = await openTestDatabase()
  const store = createPostgresStore(database.clients)
  opened.push({ database, end: store.end })
  return store
})
