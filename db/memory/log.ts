import { CommitUnknown, type LogStore } from '../log-store/log-store.ts'
import { guardSteps } from '../log-store/steps.ts'
import { createTurns } from '../log-store/turns.ts'
import { readersOf } from './readers.ts'
import { emptyRows, pour, type Rows } from './rows.ts'
import { transactionSteps } from './transaction.ts'

/** Where the simulator may break a commit. */
export type Fault = (point: 'before-commit' | 'after-commit', company: string) => void

/**
 * The log in memory. A `fault` that throws before the commit leaves nothing, and the caller sees what was thrown (a
 * CommitUnknown stands for a commit lost on its way); one that throws after it leaves everything, and the caller
 * sees CommitUnknown.
 */
export const createMemoryLog = (fault: Fault = () => {}): LogStore => {
  const companies = new Map<string, Rows>()
  const listeners = new Set<(company: string) => void>()
  const inTurn = createTurns()
  const originTaken = (origin: string) =>
    [...companies.values()].some((rows) => rows.company?.origin === origin)

  const transact: LogStore['transact'] = (company, fn) =>
    inTurn(company, async () => {
      const base = companies.get(company) ?? emptyRows()
      const draft = emptyRows()
      const { tx, end } = guardSteps(transactionSteps(company, base, draft, originTaken))
      const result = await fn(tx).finally(() => end().catch(() => {}))
      await end()
      // Another company may have taken the origin since `found` looked.
      if (!base.company && draft.company && originTaken(draft.company.origin))
        throw new Error('found: the origin is taken')
      fault('before-commit', company)
      if (!draft.company) return result
      pour(draft, base)
      companies.set(company, base)
      // Outside this call: a listener that throws must not make a kept transaction look failed.
      for (const listener of listeners) queueMicrotask(() => listener(company))
      try {
        fault('after-commit', company)
      } catch (cause) {
        throw cause instanceof CommitUnknown
          ? cause
          : new CommitUnknown('the commit was made but not reported', { cause })
      }
      return result
    })

  return {
    transact,
    ...readersOf(companies),
    onCommit: async (listener) => {
      // A wrapper each, so that one function may listen twice.
      const mine = (company: string) => listener(company)
      listeners.add(mine)
      return async () => {
        listeners.delete(mine)
      }
    },
  }
}
