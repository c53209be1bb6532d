import { type PhoneStore, type PhoneTx, SHELVES, type Shelf } from '../web/sync/phone-store.ts'

type Shelves = Record<Shelf, Map<string, unknown>>

const emptyShelves = (): Shelves =>
  Object.fromEntries(SHELVES.map((shelf) => [shelf, new Map<string, unknown>()])) as Shelves

/** What a scenario's phone keeps, for as long as it is being built: one transaction after the other, whole or not at all. */
export const createScenarioStore = (): PhoneStore => {
  let kept = emptyShelves()
  let turn: Promise<unknown> = Promise.resolve()
  return {
    transact: (fn) => {
      const result = turn.then(async () => {
        const draft = copyOf(kept)
        const value = await fn(txOver(draft))
        kept = draft
        return value
      })
      turn = result.catch(() => {})
      return result
    },
  }
}

const copyOf = (shelves: Shelves): Shelves =>
  Object.fromEntries(SHELVES.map((shelf) => [shelf, new Map(shelves[shelf])])) as Shelves

const txOver = (shelves: Shelves): PhoneTx => ({
  get: async <T>(shelf: Shelf, key: string) => structuredClone(shelves[shelf].get(key)) as T | undefined,
  list: async <T>(shelf: Shelf, from?: string, to?: string) =>
    [...shelves[shelf]]
      .filter(([key]) => (from === undefined || key >= from) && (to === undefined || key < to))
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([, value]) => structuredClone(value) as T),
  put: async (shelf, key, value) => {
    shelves[shelf].set(key, structuredClone(value))
  },
  delete: async (shelf, key) => {
    shelves[shelf].delete(key)
  },
})
