import type { Stores } from '../log-store/stores.ts'
import { createMemoryAccounts } from './accounts.ts'
import { createMemoryLog, type Fault } from './log.ts'
import { createMemoryViews } from './views.ts'

/** The twin of the PostgreSQL store, with the same promises but that of outliving the process. */
export const createMemoryStore = ({ fault }: { readonly fault?: Fault } = {}): Stores => ({
  log: createMemoryLog(fault),
  accounts: createMemoryAccounts(),
  views: createMemoryViews(),
})
