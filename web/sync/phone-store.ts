/**
 * What a phone keeps. In the browser IndexedDB (`web/device/store`), in the simulator memory; the same suite holds both.
 *  - `transact` reads and writes as one: other tabs see all of it or nothing, and none of them can come between;
 *  - it returns only when what was written would survive the battery being pulled (IndexedDB: `durability: 'strict'`,
 *    and the transaction's `complete`); until then nothing may be called kept;
 *  - inside `fn` only the transaction's own promises may be awaited: a browser commits as soon as nothing is pending.
 */
export type PhoneStore = {
  transact<T>(fn: (tx: PhoneTx) => Promise<T>): Promise<T>
}

/** `meta` small facts by name · `own` this device's entries · `log` the company log as pulled · `threads` their ends ·
 * `photos` what is known of each photo · `parts` their bytes, in pieces. */
export const SHELVES = ['meta', 'own', 'log', 'threads', 'photos', 'parts'] as const
export type Shelf = (typeof SHELVES)[number]

export type PhoneTx = {
  get<T>(shelf: Shelf, key: string): Promise<T | undefined>
  /** All values whose key lies in [from, to), in the order of their keys; without bounds, all. */
  list<T>(shelf: Shelf, from?: string, to?: string): Promise<T[]>
  put(shelf: Shelf, key: string, value: unknown): Promise<void>
  delete(shelf: Shelf, key: string): Promise<void>
}
