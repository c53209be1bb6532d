import { drizzle } from 'drizzle-orm/postgres-js'
import type { Db } from './clients.ts'
import { openClient, type Sql, type Target } from './target.ts'

/**
 * One connection, for one user at a time, and never opened anew: once lost it is thrown away.
 *
 * The driver would reconnect by itself, and then what follows in a transaction would run outside of it, each statement
 * committed alone; its own transaction helper hides whether the work or the COMMIT failed; and a statement given to it
 * between a socket's error and its close is never answered. So a lane refuses statements once it is lost, and fails the
 * one that is waiting.
 */
export type Lane = {
  readonly db: Db
  /** Runs one statement. Not before the last one was answered. */
  run<T>(statement: (client: Sql) => PromiseLike<T>): Promise<T>
  readonly lost: () => boolean
  /** Closes it without waiting. */
  drop(): void
  end(): Promise<void>
}

export class ConnectionLost extends Error {
  override readonly name = 'ConnectionLost'
}

export const openLane = (target: Target): Lane => {
  let lost = false
  let failWaiting: ((cause: ConnectionLost) => void) | undefined
  const client = openClient(target, {
    max: 1,
    // Either would close the connection between two statements of a transaction.
    idle_timeout: null as unknown as number,
    max_lifetime: null,
    // A process that hangs must not hold its company's lock for ever.
    connection: { idle_in_transaction_session_timeout: 60_000 },
    onclose: () => drop(),
  })
  const drop = () => {
    if (lost) return
    lost = true
    failWaiting?.(new ConnectionLost('the connection to PostgreSQL was lost'))
    client.end({ timeout: 0 }).catch(() => {})
  }
  const run: Lane['run'] = async (statement) => {
    if (lost) throw new ConnectionLost('the connection to PostgreSQL had been lost')
    try {
      // No Promise.race: it would leave a trace of each statement on one long-lived promise.
      return await new Promise((resolve, reject) => {
        failWaiting = reject
        statement(client).then(resolve, reject)
      })
    } finally {
      failWaiting = undefined
    }
  }
  return {
    db: drizzle(asClient(client.options, run)) as unknown as Db,
    run,
    lost: () => lost,
    drop,
    end: async () => {
      lost = true
      await client.end({ timeout: 5 })
    },
  }
}

/** Statements with more parameters differ in their number with each use: prepared, they would only pile up. */
const FEW = 16

/** As much of a client as drizzle uses, with another way to run its statements. */
export const asClient = (options: Sql['options'], run: Lane['run']): Sql =>
  Object.assign((() => {}) as unknown as Sql, {
    options,
    unsafe: ((text, parameters = []) => {
      const how = { prepare: parameters.length <= FEW }
      const plain = () => run((client) => client.unsafe(text, parameters, how))
      return {
        // biome-ignore lint/suspicious/noThenProperty: it stands for the driver's query, which starts when awaited.
        then: (...given: Parameters<Promise<unknown>['then']>) => plain().then(...given),
        values: () => run((client) => client.unsafe(text, parameters, how).values()),
      } as unknown
    }) as Sql['unsafe'],
  })
