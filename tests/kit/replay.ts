import type { Append, LogStore } from '../../db/log-store/log-store.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'

export type Step = { readonly company: string; readonly origin: string | undefined; readonly rows: Append }

/** A store that keeps each transaction, so that another can be brought to where this one was. */
export const recording = (): { stores: Stores; steps: Step[] } => {
  const steps: Step[] = []
  const stores = createMemoryStore()
  const transact: LogStore['transact'] = (company, fn) =>
    stores.log.transact(company, async (tx) => {
      let origin: string | undefined
      return fn({
        ...tx,
        found: async (row) => {
          origin = row.origin
          await tx.found(row)
        },
        append: async (rows) => {
          steps.push({ company, origin, rows })
          await tx.append(rows)
        },
      })
    })
  return { stores: { ...stores, log: { ...stores.log, transact } }, steps }
}
export const replay = async (steps: readonly Step[], accounts: Stores['accounts']): Promise<Stores> => {
  const stores = createMemoryStore()
  for (const { company, origin, rows } of steps)
    await stores.log.transact(company, async (tx) => {
      if (origin !== undefined) await tx.found({ origin })
      await tx.append(rows)
    })
  return { ...stores, accounts }
}
