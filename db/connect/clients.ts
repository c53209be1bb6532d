import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js'
import { asClient } from './lane.ts'
import { createLanes, type Lanes } from './lanes.ts'
import { openClient, type Sql, type Target } from './target.ts'

export type Db = PostgresJsDatabase<Record<string, never>>

/**
 * A process's connections: at most 8 for reads, 8 for transactions (apart, or transactions that read something else in
 * between could wait for each other for ever), 2 for raw SQL, and one for news where somebody listens. Drizzle changes
 * the parsers of the client that it is given, so raw SQL has one of its own.
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
  const raw = openClient(target, { max: 2 })
  const reading = createLanes(target, 8)
  const lanes = createLanes(target, 8)
  return {
    target,
    db: drizzle(
      asClient({ ...raw.options, parsers: {}, serializers: {} }, reading.statement),
    ) as unknown as Db,
    lanes,
    raw,
    end: async () => {
      await Promise.all([reading.end(), lanes.end(), raw.end({ timeout: 5 })])
    },
  }
}
