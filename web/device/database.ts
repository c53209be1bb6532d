import { SHELVES } from '../sync/phone-store.ts'

/** A later version adds stores and never takes one away. The service worker never opens this at all. */
const NAME = 'screedbook'
const VERSION = 1
/** Outside the phone's shelves: sync must not be able to read or list keys. */
export const KEYS = 'keys'

/** Another tab runs a newer app, which has changed this phone's storage: this page must be loaded anew. */
export class NewerAppOpen extends Error {
  override readonly name = 'NewerAppOpen'
}

export type Database = {
  /**
   * Starts a transaction; opens the database first, and once more where the connection was lost meanwhile (iOS drops it
   * under memory pressure). Nothing has run yet at that point, so a second try can't do anything twice.
   */
  begin(stores: readonly string[], mode: 'readonly' | 'readwrite'): Promise<IDBTransaction>
  close(): void
}

export const makeDatabase = (factory: IDBFactory = indexedDB, name = NAME): Database => {
  let opening: Promise<IDBDatabase> | undefined
  const drop = (): void => {
    opening = undefined
  }
  const connect = (): Promise<IDBDatabase> => {
    opening ??= open(factory, name, drop).catch((error: unknown) => {
      drop()
      throw error
    })
    return opening
  }
  return {
    begin: async (stores, mode) => {
      // IndexedDB is relaxed by default everywhere: without `strict` a `complete` may come before the disk has it.
      const options: IDBTransactionOptions = { durability: mode === 'readwrite' ? 'strict' : 'default' }
      try {
        return (await connect()).transaction(stores, mode, options)
      } catch (error) {
        if (!(error instanceof DOMException) || error.name !== 'InvalidStateError') throw error
        drop()
        return (await connect()).transaction(stores, mode, options)
      }
    },
    close: () => {
      void opening?.then((db) => db.close())
      drop()
    },
  }
}

const open = (factory: IDBFactory, name: string, onLost: () => void): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    const request = factory.open(name, VERSION)
    request.onupgradeneeded = () => {
      for (const store of [...SHELVES, KEYS])
        if (!request.result.objectStoreNames.contains(store)) request.result.createObjectStore(store)
    }
    request.onblocked = () => reject(new Error('another tab holds an older database open'))
    request.onerror = () =>
      reject(request.error?.name === 'VersionError' ? new NewerAppOpen() : request.error)
    request.onsuccess = () => {
      const db = request.result
      db.onclose = onLost
      // A newer app in another tab wants to change the storage: let it, and open again when something is needed.
      db.onversionchange = () => {
        db.close()
        onLost()
      }
      resolve(db)
    }
  })
