import type { Clients } from '../connect/clients.ts'
import { createAccounts } from '../queries/accounts.ts'
import { createNews } from '../queries/news.ts'
import { logReaders } from '../queries/readers.ts'
import { createTransact } from '../queries/transact.ts'
import { createViews } from '../queries/views.ts'
import type { Stores } from './stores.ts'

/** The store on PostgreSQL. `end` stops the news; the clients belong to whoever opened them. */
export const createPostgresStore = (clients: Clients): Stores & { end(): Promise<void> } => {
  const readers = logReaders(clients.db)
  const news = createNews(clients.target, readers.companies)
  return {
    log: { transact: createTransact(clients.lanes), ...readers, onCommit: news.onCommit },
    accounts: createAccounts(clients.db),
    views: createViews(clients.db),
    end: news.end,
  }
}
