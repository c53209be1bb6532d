import { fileURLToPath } from 'node:url'
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate } from 'drizzle-orm/postgres-js/migrator'
import { LOCKS } from './session-lock.ts'
import { openClient, type Target } from './target.ts'

/** Brings the tables up to date; processes that start at once take turns. */
export const runMigrations = async (target: Target): Promise<void> => {
  const client = openClient(target, { max: 1, max_lifetime: null })
  try {
    await client`select pg_advisory_lock(${LOCKS.ours}::int, ${LOCKS.migrate}::int)`
    await migrate(drizzle(client), {
      migrationsFolder: fileURLToPath(new URL('../migrations', import.meta.url)),
    })
  } finally {
    // The lock goes with the session.
    await client.end({ timeout: 5 })
  }
}
