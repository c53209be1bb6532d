import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js'
import { createLanes, type Lanes } from './lanes.ts'
import { openClient, type Sql, type Target } from './target.ts'

export type Db = PostgresJsDatabase<Record<string, never>>

/**
 * A process's connections: at most 8 + 8 + 2, and one for news where somebody listens. Drizzle changes the parsers of
 * the client that it is given, so raw SQL has one of its own.
 */
export type Clients = {
  readonly target: Target
  /** Reads, and writes of one statement. */
  readonly db: Db
  /** For transactions of the log. */
  readonly lanes: Lanes
  readonly raw: Sql
  end(): Promise<void>
}

export const openClients = (target: Target): Clients => {
  const reading = openClient(target, { max: 8 })
  const raw = openClient(target, { max: 2 })
  const lanes = createLanes(target, 8)
  return {
    target,
    db: drizzle(reading) as unknown as Db,
    lanes,
    raw,
    end: async () => {
      await Promise.all([reading.end({ timeout: 5 }), raw.end({ timeout: 5 }), lanes.end()])
    },
  }
}
