import { integer, pgTable, primaryKey, text, uuid } from 'drizzle-orm/pg-core'
import { count } from './columns.ts'

/** Projections: may be emptied at any time. The body is text, since PostgreSQL's jsonb would rewrite it. */
export const views = pgTable(
  'views',
  {
    company: uuid('company').notNull(),
    job: uuid('job').notNull(),
    name: text('name').notNull(),
    version: integer('version').notNull(),
    count: count('count').notNull(),
    body: text('body').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.job, t.name] })],
)
