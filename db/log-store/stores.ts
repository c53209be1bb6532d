import type { AccountStore } from './account-store.ts'
import type { LogStore } from './log-store.ts'
import type { ViewStore } from './view-store.ts'

/** All that a server keeps, but for photos and sounds. PostgreSQL and its twin in memory both come as this. */
export type Stores = { readonly log: LogStore; readonly accounts: AccountStore; readonly views: ViewStore }
