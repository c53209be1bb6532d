import { OWNER } from './cluster.ts'
import { LOCKS, takeSessionLock } from './session-lock.ts'
import type { Sql, Target } from './target.ts'

/** A process's hold on an embedded server: while anybody has one, nobody stops it. */
export type Tether = {
  /** True for the last one that holds on; from then on nobody can join. */
  isLast(): Promise<boolean>
  end(): Promise<void>
}

const { ours, use } = LOCKS

/** Takes hold of a running server and makes the database where there is none; undefined where it is going down. */
export const tie = async (target: Target & { at: 'socket' }): Promise<Tether | undefined> => {
  // Locks belong to a database: all tethers are in the one that is always there.
  const lock = await takeSessionLock({ ...target, database: 'postgres' }, async (client) => {
    const [row] = await client`select pg_try_advisory_lock_shared(${ours}::int, ${use}::int) as held`
    return row?.held === true
  }).catch(() => undefined)
  if (!lock) return undefined
  await makeDatabase(lock.client, target.database)
  return { isLast: () => isLast(lock.client), end: lock.end }
}

const isLast = async (client: Sql): Promise<boolean> => {
  try {
    await client`select pg_advisory_unlock_shared(${ours}::int, ${use}::int)`
    const [row] = await client`select pg_try_advisory_lock(${ours}::int, ${use}::int) as alone`
    return row?.alone === true
  } catch {
    // No server answers, so nobody uses it.
    return true
  }
}

const makeDatabase = async (client: Sql, database: string): Promise<void> => {
  const [there] = await client`select 1 from pg_database where datname = ${database}`
  if (there) return
  await client`create database ${client(database)} owner ${client(OWNER)}`.catch(
    (cause: { code?: string }) => {
      // Another process was first.
      if (cause.code !== '42P04' && cause.code !== '23505') throw cause
    },
  )
}
