import { uuidV7 } from '../../api/domain/entry/make.ts'
import { type App, createApp } from '../../api/server/app.ts'
import type { ServerWorld } from '../../api/server/world.ts'
import type { Append, LogStore } from '../../db/log-store/log-store.ts'
import { CommitUnknown } from '../../db/log-store/log-store.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { WireDown } from '../../web/sync/wire.ts'
import type { Chance } from '../kit/chance.ts'
import type { Turns } from './turns.ts'

/** What one transaction wrote, so that another store can be brought to where this one was. */
export type Written = {
  readonly company: string
  readonly origin: string | undefined
  readonly rows: Append
}

/** One or more processes over one store, which are killed and started anew. */
export type SimServer = {
  readonly stores: Stores
  /** All that was committed, in order. */
  readonly written: readonly Written[]
  send(request: Request): Promise<Response>
  /** SIGKILL and a new start of one process: whoever waits for it hears nothing. */
  kill(): Promise<void>
  /** What the program of the next start knows. */
  update(vocabulary: number): Promise<void>
  /** Whether commits may fail. */
  trouble: boolean
}

type Life = { dead: boolean; readonly died: Promise<never>; die(): void }

export const createSimServer = async (given: {
  readonly world: ServerWorld
  readonly turns: Turns
  readonly chance: Chance
  readonly processes: number
  readonly from?: readonly Written[]
}): Promise<SimServer> => {
  const { turns, chance } = given
  const written: Written[] = []
  const state = { trouble: false }
  let pending: Written | undefined
  const stores = createMemoryStore({
    fault: (point) => {
      if (point === 'after-commit' && pending) written.push(pending)
      if (point === 'after-commit') pending = undefined
      if (!state.trouble || !chance.chance(0.08)) return
      if (point === 'after-commit') throw new CommitUnknown('the connection broke after the commit')
      if (chance.chance(0.5)) throw new CommitUnknown('the connection broke before the commit')
      throw new Error('the database failed before the commit')
    },
  })
  for (const { company, origin, rows } of given.from ?? [])
    await stores.log.transact(company, async (tx) => {
      pending = { company, origin, rows }
      if (origin !== undefined) await tx.found({ origin })
      await tx.append(rows)
    })

  let vocabulary = given.world.vocabulary
  const start = async (): Promise<{ app: App; life: Life }> => {
    const life = newLife()
    const { now, random } = given.world
    const app = await createApp({
      ...given.world,
      ...(vocabulary === undefined ? {} : { vocabulary }),
      store: storeOf(stores.log, life, turns, (row) => {
        pending = row
      }),
      accounts: stores.accounts,
      views: stores.views,
      boot: uuidV7(now(), random),
    })
    return { app, life }
  }
  const processes: { app: App; life: Life }[] = []
  for (let i = 0; i < given.processes; i++) processes.push(await start())

  const restart = async (i: number): Promise<void> => {
    processes[i]!.life.die()
    processes[i] = await start()
  }
  return {
    stores,
    written,
    get trouble() {
      return state.trouble
    },
    set trouble(on) {
      state.trouble = on
    },
    send: (request) => {
      const { app, life } = processes.length > 1 ? chance.pick(processes) : processes[0]!
      return Promise.race([Promise.resolve(app.app.fetch(request)), life.died])
    },
    kill: () => restart(chance.below(processes.length)),
    update: async (next) => {
      vocabulary = next
      for (let i = 0; i < processes.length; i++) await restart(i)
    },
  }
}

const newLife = (): Life => {
  let die = (_: WireDown): void => {}
  const died = new Promise<never>((_, reject) => {
    die = reject
  })
  died.catch(() => {})
  const life: Life = {
    dead: false,
    died,
    die: () => {
      life.dead = true
      die(new WireDown('the server was killed'))
    },
  }
  return life
}

/**
 * The store as one process has it. Its transactions stop at gates, so that others queue up behind them and a kill finds
 * the process anywhere: a dead one commits nothing more, and answers nobody even where it had committed.
 */
const storeOf = (log: LogStore, life: Life, turns: Turns, pend: (row: Written) => void): LogStore => {
  const alive = (): void => {
    if (life.dead) throw new Error('this process is dead')
  }
  return {
    ...log,
    transact: async (company, fn) => {
      alive()
      const value = await log.transact(company, async (tx) => {
        let origin: string | undefined
        const result = await fn({
          ...tx,
          found: (row) => {
            origin = row.origin
            return tx.found(row)
          },
          append: async (rows) => {
            await turns.gate('append')
            alive()
            pend({ company, origin, rows })
            await tx.append(rows)
          },
        })
        alive()
        return result
      })
      await turns.gate('committed')
      alive()
      return value
    },
    page: async (company, from, limit) => {
      const page = await log.page(company, from, limit)
      await turns.gate('page')
      return page
    },
  }
}
