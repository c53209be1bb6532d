import { eq, sql } from 'drizzle-orm'
import postgres from 'postgres'
import type { Db } from '../connect/clients.ts'
import { ConnectionLost, type Lane } from '../connect/lane.ts'
import type { Lanes } from '../connect/lanes.ts'
import { isUuid } from '../log-store/check-append.ts'
import { CommitUnknown, type CompanyRow, type LogStore, type LogTx } from '../log-store/log-store.ts'
import { guardSteps } from '../log-store/steps.ts'
import { createTurns } from '../log-store/turns.ts'
import { companies } from '../schema/tables.ts'
import { NEWS } from './news.ts'
import { toCompany } from './rows.ts'
import { transactionSteps } from './transaction.ts'

/**
 * Transactions of the log: READ COMMITTED, with the company's row locked by the first statement, so that each later
 * statement sees all that was committed before the lock was had. Companies also take turns within the process:
 * many waiters for one of them would otherwise hold all lanes and stop the others.
 */
export const createTransact = (lanes: Lanes): LogStore['transact'] => {
  const inTurn = createTurns()
  return (company, fn) =>
    inTurn(company, () =>
      lanes.transaction(async (lane) => {
        const result = await work(lane, company, fn).catch(async (cause) => {
          // A lane that can't even roll back is dropped, and the server rolls back by itself.
          await lane.run((client) => client.unsafe('rollback')).catch(lane.drop)
          throw cause
        })
        await commit(lane)
        return result
      }),
    )
}

/** All from the lock to just before the commit. */
const work = async <T>(lane: Lane, company: string, fn: (tx: LogTx) => Promise<T>): Promise<T> => {
  if (!isUuid(company)) throw new Error('transact: the company is no UUID')
  const state = { row: await lockCompany(lane.db, company), changed: false }
  const { tx, end } = guardSteps(transactionSteps(lane, company, state))
  // Also where fn failed: a step that it left running must be over before the rollback.
  const result = await fn(tx).finally(() => end().catch(() => {}))
  await end()
  if (state.changed) await lane.db.execute(sql`select pg_notify(${NEWS}, ${company})`)
  return result
}

const lockCompany = async (db: Db, company: string): Promise<CompanyRow | undefined> => {
  const locked = async () => {
    const [row] = await db.select().from(companies).where(eq(companies.company, company)).for('update')
    return row && toCompany(row)
  }
  const there = await locked()
  if (there) return there
  // There is no row to lock before the founding: founders of one company queue here and look again.
  await db.execute(sql`select pg_advisory_xact_lock(hashtextextended(${company}, 0))`)
  return locked()
}

/**
 * Commits, or says what became of it. An ERROR in answer to COMMIT means that nothing was kept; a FATAL one, or none at
 * all because the connection broke, means that nobody knows.
 */
const commit = async (lane: Lane): Promise<void> => {
  if (lane.lost()) throw new ConnectionLost('the connection was lost before the commit')
  const answer = await lane
    .run((client) => client.unsafe('commit'))
    .catch((cause: unknown) => {
      lane.drop()
      if (cause instanceof postgres.PostgresError && cause.severity === 'ERROR') throw cause
      throw new CommitUnknown('the connection broke during the commit', { cause })
    })
  // PostgreSQL answers COMMIT with ROLLBACK, and no error, where a statement had failed before.
  if (answer.command !== 'COMMIT') throw new Error(`the commit was answered with ${answer.command}`)
}
