import { fail, ok, type Result } from '../../api/domain/result.ts'
import { createPostgresStore } from '../log-store/postgres.ts'
import type { Stores } from '../log-store/stores.ts'
import { type Clients, openClients } from './clients.ts'
import { checkDurable } from './durable.ts'
import { type EmbeddedFailure, openEmbedded } from './embedded.ts'
import { type Hold, holdFolder } from './hold.ts'
import { runMigrations } from './migrate.ts'
import { isAddress, type Target } from './target.ts'

export type Connected = {
  readonly stores: Stores
  readonly clients: Clients
  /** True where the database is the data folder's own. */
  readonly embedded: boolean
  /** For `serve`: fails where another process serves the same folder. With a DATABASE_URL there is nothing to hold. */
  hold(): Promise<Result<void, 'folder-in-use'>>
  /** Closes all connections and stops the embedded server, unless another process uses it. */
  close(): Promise<void>
}

export type ConnectFailure = EmbeddedFailure | 'database-unreachable' | 'database-not-durable'

/** Opens the database, by `databaseUrl` where there is one and else in the data folder, and brings it up to date. */
export const connect = async (options: {
  readonly databaseUrl: string | undefined
  readonly dataFolder: string
  readonly log: (line: string) => void
}): Promise<Result<Connected, ConnectFailure>> => {
  const { databaseUrl, dataFolder, log } = options
  if (databaseUrl) {
    if (!isAddress(databaseUrl)) return fail('database-unreachable', '', { code: 'not an address' })
    return connectTo({ at: 'url', url: databaseUrl }, dataFolder)
  }
  const embedded = await openEmbedded(dataFolder, { log })
  if (!embedded.ok) return embedded
  const { target, stop } = embedded.value
  return connectTo(target, dataFolder, stop).catch(async (cause) => {
    await stop()
    throw cause
  })
}

const connectTo = async (
  target: Target,
  dataFolder: string,
  stop?: () => Promise<void>,
): Promise<Result<Connected, ConnectFailure>> => {
  const clients = openClients(target)
  const ready = await makeReady(clients)
  if (!ready.ok) {
    await clients.end()
    await stop?.()
    return ready
  }
  const stores = createPostgresStore(clients)
  let held: Hold | undefined
  return ok({
    stores,
    clients,
    embedded: stop !== undefined,
    hold: async () => {
      if (!stop || held) return ok(undefined)
      const hold = await holdFolder(target, dataFolder)
      if (!hold.ok) return hold
      held = hold.value
      return ok(undefined)
    },
    close: async () => {
      await stores.end()
      await clients.end()
      await held?.release()
      await stop?.()
    },
  })
}

const makeReady = async (
  clients: Clients,
): Promise<Result<void, 'database-unreachable' | 'database-not-durable'>> => {
  try {
    await clients.raw`select 1`
  } catch (cause) {
    // The code alone: a message may hold the address, and with it the password.
    const { code } = cause as { code?: string }
    return fail('database-unreachable', '', { code: code ?? 'unknown' })
  }
  const durable = await checkDurable(clients.raw)
  if (durable.ok) await runMigrations(clients.target)
  return durable
}
