import { type PhoneStore, type PhoneTx, SHELVES, type Shelf } from '../../web/sync/phone-store.ts'

/** The battery was pulled while this transaction ran: nothing of it was kept. */
export class PhoneCrashed extends Error {
  override readonly name = 'PhoneCrashed'
}

/**
 * `before-complete`: all was written, nothing is kept yet. `after-complete`: it is kept, and the caller does not know
 * yet. A hook that throws there makes a write that was lost, or one that was kept and reported lost.
 */
export type FaultPoint = 'before-complete' | 'after-complete'

export type MemoryPhoneStore = PhoneStore & {
  /** Pulls the battery: what was not committed is gone, and whoever waits for it gets `PhoneCrashed`. */
  crash(): void
  /** What a backup of the phone would hold now; `restore` puts such a copy back, of this store or another. */
  snapshot(): PhoneSnapshot
  restore(snapshot: PhoneSnapshot): void
  fault?: ((point: FaultPoint) => void) | undefined
}
export type PhoneSnapshot = ReadonlyMap<Shelf, ReadonlyMap<string, unknown>>

/** A phone's store in memory: what the simulator crashes at will. One suite holds it and IndexedDB to the same rules. */
export const createMemoryPhoneStore = (fault?: (point: FaultPoint) => void): MemoryPhoneStore => {
  const committed = emptyShelves()
  let run = 0
  let tail: Promise<unknown> = Promise.resolve()

  const store: MemoryPhoneStore = {
    fault,
    crash: () => {
      run++
      tail = Promise.resolve()
    },
    // Kept values are never changed in place, so a copy of the maps is a copy of all.
    snapshot: () => new Map(SHELVES.map((shelf) => [shelf, new Map(committed[shelf].values)])),
    restore: (snapshot) => {
      for (const shelf of SHELVES) committed[shelf] = shelfOf(snapshot.get(shelf) ?? new Map())
    },
    transact: (fn) => {
      const mine = run
      const alive = (): void => {
        if (mine !== run) throw new PhoneCrashed('the phone lost power')
      }
      const result = tail.then(async () => {
        alive()
        const { tx, writes, close } = openTransaction(committed, alive)
        const value = await fn(tx).finally(close)
        alive()
        store.fault?.('before-complete')
        alive()
        for (const [shelf, entries] of writes) applyWrites(committed[shelf], entries)
        store.fault?.('after-complete')
        alive()
        return value
      })
      tail = result.catch(() => {})
      return result
    },
  }
  return store
}

type Slot = { readonly is: 'put'; readonly value: unknown } | { readonly is: 'deleted' }
type ShelfData = { readonly values: Map<string, unknown>; keys: string[] | undefined }
type Writes = ReadonlyMap<Shelf, Map<string, Slot>>

const shelfOf = (values: ReadonlyMap<string, unknown>): ShelfData => ({
  values: new Map(values),
  keys: undefined,
})

const emptyShelves = (): Record<Shelf, ShelfData> =>
  Object.fromEntries(SHELVES.map((shelf) => [shelf, shelfOf(new Map())])) as unknown as Record<
    Shelf,
    ShelfData
  >

/** As `structuredClone` would copy it, at a tenth of the cost for what a phone keeps. */
const copyOf = (value: unknown): unknown => {
  if (typeof value === 'function' || typeof value === 'symbol')
    throw new TypeError('a value that no store holds')
  if (typeof value !== 'object' || value === null) return value
  if (value instanceof Uint8Array) return new Uint8Array(value)
  if (Array.isArray(value)) return value.map(copyOf)
  if (Object.getPrototypeOf(value) !== Object.prototype) return structuredClone(value)
  const copy: Record<string, unknown> = {}
  for (const name of Object.keys(value)) copy[name] = copyOf((value as Record<string, unknown>)[name])
  return copy
}

const openTransaction = (committed: Readonly<Record<Shelf, ShelfData>>, alive: () => void) => {
  const writes: Writes = new Map(SHELVES.map((shelf) => [shelf, new Map<string, Slot>()]))
  let open = true
  const check = (): void => {
    alive()
    if (!open) throw new Error('this transaction is over')
  }
  const read = (shelf: Shelf, key: string): unknown => {
    const written = writes.get(shelf)!.get(key)
    if (written) return written.is === 'put' ? copyOf(written.value) : undefined
    return copyOf(committed[shelf].values.get(key))
  }
  const tx: PhoneTx = {
    get: async <T>(shelf: Shelf, key: string) => {
      check()
      return read(shelf, key) as T | undefined
    },
    list: async <T>(shelf: Shelf, from?: string, to?: string) => {
      check()
      const inBounds = (key: string) => (from === undefined || key >= from) && (to === undefined || key < to)
      const written = writes.get(shelf)!
      const keys = sortedKeys(committed[shelf]).filter((key) => inBounds(key) && !written.has(key))
      for (const [key, slot] of written) if (slot.is === 'put' && inBounds(key)) keys.push(key)
      return (written.size > 0 ? keys.sort() : keys).map((key) => read(shelf, key) as T)
    },
    put: async (shelf, key, value) => {
      check()
      writes.get(shelf)!.set(key, { is: 'put', value: copyOf(value) })
    },
    delete: async (shelf, key) => {
      check()
      writes.get(shelf)!.set(key, { is: 'deleted' })
    },
  }
  const close = (): void => {
    open = false
  }
  return { tx, writes, close }
}

/** Sorted by UTF-16 code unit, as IndexedDB sorts its string keys. */
const sortedKeys = (shelf: ShelfData): readonly string[] => {
  shelf.keys ??= [...shelf.values.keys()].sort()
  return shelf.keys
}

const applyWrites = (shelf: ShelfData, writes: ReadonlyMap<string, Slot>): void => {
  for (const [key, slot] of writes) {
    if (slot.is === 'deleted') {
      if (shelf.values.delete(key)) shelf.keys = undefined
    } else {
      if (!shelf.values.has(key)) shelf.keys = undefined
      shelf.values.set(key, slot.value)
    }
  }
}
