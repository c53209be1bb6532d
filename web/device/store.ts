import { type PhoneStore, type PhoneTx, SHELVES } from '../sync/phone-store.ts'
import type { Database } from './database.ts'

export type DeviceStore = PhoneStore & {
  /** Reads one moment's state without waiting for writers in other tabs. `put` and `delete` fail. */
  read<T>(fn: (tx: PhoneTx) => Promise<T>): Promise<T>
}

/** The transaction was over before its function was: something else than its own promises was awaited inside. */
export class TransactionClosedEarly extends Error {
  override readonly name = 'TransactionClosedEarly'
}

/** The phone's shelves on IndexedDB. `onWritten` is told after each `complete` of a transaction that wrote. */
export const makeStore = (database: Database, onWritten: () => void = () => {}): DeviceStore => ({
  transact: async (fn) => {
    const transaction = await database.begin(SHELVES, 'readwrite')
    const writing = { wrote: false }
    const value = await runTransaction(transaction, fn, writing)
    if (writing.wrote) onWritten()
    return value
  },
  read: async (fn) => runTransaction(await database.begin(SHELVES, 'readonly'), fn, { wrote: false }),
})

/** Resolves on the transaction's `complete` and on nothing earlier. A throwing `fn` takes everything back. */
const runTransaction = async <T>(
  transaction: IDBTransaction,
  fn: (tx: PhoneTx) => Promise<T>,
  writing: { wrote: boolean },
): Promise<T> => {
  let settled = false
  const done = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => (settled ? resolve() : reject(new TransactionClosedEarly()))
    transaction.onabort = () => reject(transaction.error ?? new DOMException('aborted', 'AbortError'))
  })
  done.catch(() => {})
  let value: T
  try {
    value = await fn(openShelves(transaction, writing))
    settled = true
  } catch (error) {
    abort(transaction)
    throw error
  }
  // Saves the wait for the browser to notice that nothing is pending; the flush to disk still comes before `complete`.
  commit(transaction)
  await done
  return value
}

const openShelves = (transaction: IDBTransaction, writing: { wrote: boolean }): PhoneTx => ({
  get: (shelf, key) => ask(transaction.objectStore(shelf).get(key)),
  list: (shelf, from, to) => ask(transaction.objectStore(shelf).getAll(rangeOf(from, to))),
  put: async (shelf, key, value) => {
    writing.wrote = true
    await ask(transaction.objectStore(shelf).put(value, key))
  },
  delete: async (shelf, key) => {
    writing.wrote = true
    await ask(transaction.objectStore(shelf).delete(key))
  },
})

const ask = <T>(request: IDBRequest): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })

const rangeOf = (from: string | undefined, to: string | undefined): IDBKeyRange | undefined => {
  if (from !== undefined && to !== undefined)
    return from < to ? IDBKeyRange.bound(from, to, false, true) : NOTHING()
  if (from !== undefined) return IDBKeyRange.lowerBound(from)
  return to === undefined ? undefined : IDBKeyRange.upperBound(to, true)
}

/** IndexedDB refuses a range whose ends are the wrong way round; for us it holds nothing. No key is a date. */
const NOTHING = (): IDBKeyRange => IDBKeyRange.only(new Date(0))

const abort = (transaction: IDBTransaction): void => {
  try {
    transaction.abort()
  } catch {
    // It is over already; what it was is said by the error that brought us here.
  }
}

const commit = (transaction: IDBTransaction): void => {
  try {
    transaction.commit()
  } catch {
    // Over already: `done` tells how it ended.
  }
}
