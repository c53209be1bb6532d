import { CommitUnknown, type LogTx } from '../../../db/log-store/log-store.ts'
import type { ServerWorld } from '../world.ts'
import { type CompanyState, catchUp, NO_STATE } from './company-state.ts'
import { type Draft, openDraft } from './draft.ts'

/** One thing to put in the log; it may be run again after a commit whose outcome is unknown, so it finds what it did. */
export type Work<T> = (draft: Draft) => Promise<T>

export type Sequencer = {
  /** Runs alone for its company and returns only after the commit. */
  run<T>(company: string, work: Work<T>): Promise<T>
  /** Makes the company's row and runs in the same transaction. */
  found<T>(company: string, origin: string, work: Work<T>): Promise<T>
  /** People and devices as of the newest commit. */
  state(company: string): Promise<CompanyState>
}

type Waiting = {
  readonly work: Work<unknown>
  readonly done: (value: unknown) => void
  readonly failed: (error: unknown) => void
}

/** One push must not wait for hundreds of others. */
const MOST_IN_ONE_COMMIT = 32
/** After a commit of unknown outcome everything is read again; a database that does so thrice is down. */
const MOST_TRIES = 3

/**
 * One sequencer a company and process; across processes the store's lock makes them one. Work that comes while a
 * transaction is under way waits and goes into the next one together, so that small pushes share a commit.
 */
export const createSequencer = (world: ServerWorld): Sequencer => {
  const queues = new Map<string, Waiting[]>()
  const busy = new Set<string>()
  const states = new Map<string, CompanyState>()

  const stateIn = async (company: string, tx: Pick<LogTx, 'threadLeaves'>): Promise<CompanyState> =>
    catchUp(
      states.get(company) ?? NO_STATE,
      company,
      (job, after) => tx.threadLeaves(job, after),
      world.sha256,
    )

  const together = async (
    company: string,
    origin: string | undefined,
    batch: readonly Waiting[],
  ): Promise<unknown[]> =>
    world.store.transact(company, async (tx) => {
      if (origin !== undefined && !(await tx.company())) await tx.found({ origin })
      const row = await tx.company()
      if (!row) throw new NoSuchCompany(company)
      const before = await stateIn(company, tx)
      states.set(company, before)
      const draft = openDraft(world, tx, row, before)
      const values: unknown[] = []
      for (const { work } of batch) values.push(await work(draft))
      await draft.finish()
      return values
    })

  const withRetry = async (
    company: string,
    origin: string | undefined,
    batch: readonly Waiting[],
  ): Promise<unknown[]> => {
    for (let tries = 1; ; tries++) {
      try {
        return await together(company, origin, batch)
      } catch (error) {
        // Whether it was committed is not known: run it all again on what is there now. Each work finds its own traces.
        if (!(error instanceof CommitUnknown) || tries === MOST_TRIES) throw error
      }
    }
  }

  const drain = async (company: string): Promise<void> => {
    if (busy.has(company)) return
    busy.add(company)
    try {
      for (let batch = take(company); batch.length > 0; batch = take(company)) await runBatch(company, batch)
    } finally {
      busy.delete(company)
    }
  }

  const take = (company: string): Waiting[] => {
    const queue = queues.get(company) ?? []
    const batch = queue.splice(0, MOST_IN_ONE_COMMIT)
    if (queue.length === 0) queues.delete(company)
    return batch
  }

  const runBatch = async (company: string, batch: readonly Waiting[]): Promise<void> => {
    try {
      const values = await withRetry(company, undefined, batch)
      for (const [i, waiting] of batch.entries()) waiting.done(values[i])
    } catch (error) {
      // One work's bug must not fail its neighbours: each gets a transaction of its own.
      if (batch.length > 1) for (const one of batch) await runBatch(company, [one])
      else batch[0]!.failed(error)
    }
  }

  const alone = <T>(work: Work<T>): Waiting => ({ work, done: () => {}, failed: () => {} })

  return {
    run: <T>(company: string, work: Work<T>) =>
      new Promise<T>((resolve, reject) => {
        const queue = queues.get(company) ?? []
        queues.set(company, queue)
        queue.push({ work, done: (value) => resolve(value as T), failed: reject })
        void drain(company)
      }),
    found: async <T>(company: string, origin: string, work: Work<T>) =>
      (await withRetry(company, origin, [alone(work)]))[0] as T,
    state: async (company) => {
      const known = states.get(company) ?? NO_STATE
      const state = await catchUp(
        known,
        company,
        async (job, after) => (await world.store.thread(company, job)).filter((leaf) => leaf.count > after),
        world.sha256,
      )
      states.set(company, state)
      return state
    },
  }
}

/** There is no such company, or none any more. */
export class NoSuchCompany extends Error {
  override readonly name = 'NoSuchCompany'
}
