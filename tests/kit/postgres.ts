import { randomBytes } from 'node:crypto'
import { readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Clients, openClients } from '../../db/connect/clients.ts'
import { type Embedded, openEmbedded } from '../../db/connect/embedded.ts'
import { runMigrations } from '../../db/connect/migrate.ts'
import { isAlive } from '../../db/connect/postmaster.ts'
import { openClient, type Sql, type Target } from '../../db/connect/target.ts'

/**
 * A throw-away PostgreSQL for tests: one for a vitest run, started by the first file that asks, with a database of its
 * own for each. As vitest's globalSetup this file names the folder and, at the end, takes it away, also after failures.
 */
const FOLDER = 'SCREEDBOOK_TEST_POSTGRES'
const PREFIX = 'screedbook-throwaway-'

export const setup = async (): Promise<void> => {
  await sweep()
  process.env[FOLDER] = join(tmpdir(), `${PREFIX}${process.pid}`)
}

export const teardown = async (): Promise<void> => {
  const folder = process.env[FOLDER]
  if (folder) await removeServer(folder)
}

export type TestDatabase = {
  readonly target: Target & { at: 'socket' }
  readonly clients: Clients
  close(): Promise<void>
}

/** A fresh, migrated database. */
export const openTestDatabase = async (): Promise<TestDatabase> => {
  const database = await openBareDatabase()
  await runMigrations(database.target)
  return database
}

/** A database with nothing in it. */
export const openBareDatabase = async (): Promise<TestDatabase> => {
  const { embedded, folder, shared } = await openServer()
  const target = {
    ...(embedded.target as Target & { at: 'socket' }),
    database: `test_${randomBytes(6).toString('hex')}`,
  }
  const admin = openClient(embedded.target, { max: 1 })
  await admin`create database ${admin(target.database)}`
  await admin.end()
  const clients = openClients(target)
  return {
    target,
    clients,
    close: async () => {
      await clients.end()
      await embedded.stop()
      if (!shared) await rm(folder, { recursive: true, force: true })
    },
  }
}

/** How often the server has synced its write-ahead log. Backends report once a second: wait that long before. */
export const walSyncs = async (sql: Sql): Promise<number> => {
  const [row] = await sql`select coalesce(sum(fsyncs), 0)::int as syncs from pg_stat_io where object = 'wal'`
  return Number(row?.syncs)
}

/** Without globalSetup (one file run by hand) each database has a server of its own. */
const openServer = async (): Promise<{ embedded: Embedded; folder: string; shared: boolean }> => {
  const shared = process.env[FOLDER]
  const folder = shared ?? join(tmpdir(), `${PREFIX}${process.pid}-${randomBytes(4).toString('hex')}`)
  const embedded = await openEmbedded(folder, { log: () => {} })
  if (!embedded.ok) throw new Error(`no PostgreSQL for tests: ${JSON.stringify(embedded.problem)}`)
  return { embedded: embedded.value, folder, shared: shared !== undefined }
}

/** What runs that were killed left behind. */
const sweep = async (): Promise<void> => {
  for (const name of await readdir(tmpdir())) {
    const pid = /^screedbook-throwaway-(\d+)(?:-|$)/.exec(name)?.[1]
    if (pid && !isAlive(Number(pid))) await removeServer(join(tmpdir(), name))
  }
}

const removeServer = async (folder: string): Promise<void> => {
  const left = (await readdir(folder).catch((): string[] => [])).includes('postgres')
  if (left) {
    const embedded = await openEmbedded(folder, { log: () => {} }).catch(() => undefined)
    if (embedded?.ok) await embedded.value.stop()
  }
  await rm(folder, { recursive: true, force: true })
}
