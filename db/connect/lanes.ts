import { drizzle } from 'drizzle-orm/postgres-js'
import type { Db } from './clients.ts'
import { type ClientOptions, openClient, type Sql, type Target } from './target.ts'

/**
 * A connection of its own for one transaction at a time.
 *
 * The driver's own helper hides whether the work or the COMMIT failed, and a connection that it reserves is quietly
 * opened anew when it is lost: what follows in the same transaction would then run by itself, each statement committed
 * alone. So each lane is a client of exactly one connection, which notes its loss at once and refuses every statement
 * from then on until the next `begin`.
 */
export type Lane = {
  readonly db: Db
  begin(): Promise<void>
  /** To be called on a lane that is not lost. Answers with the command tag: PostgreSQL says ROLLBACK where the transaction had failed before. */
  commit(): Promise<string>
  rollback(): Promise<void>
  readonly lost: () => boolean
}

export type Lanes = {
  /** Waits for a free lane, first come first served. */
  use<T>(work: (lane: Lane) => Promise<T>): Promise<T>
  end(): Promise<void>
}

export class ConnectionLost extends Error {
  override readonly name = 'ConnectionLost'
}

export const createLanes = (target: Target, most: number): Lanes => {
  const free: Lane[] = []
  const clients: Sql[] = []
  const waiting: ((lane: Lane) => void)[] = []
  const take = async (): Promise<Lane> => {
    const lane = free.pop()
    if (lane) return lane
    if (clients.length < most) return openLane(target, clients)
    return new Promise((resolve) => waiting.push(resolve))
  }
  const giveBack = (lane: Lane) => {
    const next = waiting.shift()
    if (next) next(lane)
    else free.push(lane)
  }
  return {
    use: async (work) => {
      const lane = await take()
      try {
        return await work(lane)
      } finally {
        giveBack(lane)
      }
    },
    end: async () => {
      await Promise.all(clients.map((client) => client.end({ timeout: 5 })))
    },
  }
}

const LANE: ClientOptions = {
  max: 1,
  // Either would close the connection between two statements of a transaction.
  idle_timeout: null as unknown as number,
  max_lifetime: null,
  // A process that hangs must not hold its company's lock for ever.
  connection: { idle_in_transaction_session_timeout: 60_000 },
}

const openLane = (target: Target, clients: Sql[]): Lane => {
  let lost = true
  const client = openClient(target, {
    ...LANE,
    onclose: () => {
      lost = true
    },
  })
  clients.push(client)
  const begin = () => client.unsafe('begin isolation level read committed')
  return {
    db: drizzle(refusingWhen(client, () => lost)) as unknown as Db,
    begin: async () => {
      // A connection may have died while the lane lay idle; nothing was done yet, so a second try is safe.
      await begin().catch(begin)
      lost = false
    },
    commit: async () => (await client.unsafe('commit')).command,
    rollback: async () => {
      // Where this fails the connection is gone, and the server rolls back by itself.
      if (!lost) await client.unsafe('rollback').catch(() => {})
    },
    lost: () => lost,
  }
}

/** What drizzle uses of a client, with each statement refused once the connection was lost. */
const refusingWhen = (client: Sql, lost: () => boolean): Sql =>
  Object.assign((() => {}) as unknown as Sql, {
    options: client.options,
    unsafe: ((query, parameters, options) => {
      if (lost()) throw new ConnectionLost('the connection was lost during the transaction')
      return client.unsafe(query, parameters, options)
    }) as Sql['unsafe'],
  })
