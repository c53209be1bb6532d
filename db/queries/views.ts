import { and, eq, sql } from 'drizzle-orm'
import type { Db } from '../connect/clients.ts'
import { isUuid } from '../log-store/check-append.ts'
import type { ViewStore } from '../log-store/view-store.ts'
import { views } from '../schema/tables.ts'

const ROW = {
  job: views.job,
  name: views.name,
  version: views.version,
  count: views.count,
  body: views.body,
}

/** Projections. */
export const createViews = (db: Db): ViewStore => ({
  view: async (company, job, name) => {
    if (!isUuid(company) || !isUuid(job)) return undefined
    const [row] = await db
      .select(ROW)
      .from(views)
      .where(and(eq(views.company, company), eq(views.job, job), eq(views.name, name)))
    return row
  },
  views: async (company, name) => {
    if (!isUuid(company)) return []
    return db
      .select(ROW)
      .from(views)
      .where(and(eq(views.company, company), eq(views.name, name)))
  },
  putView: async (company, row) => {
    await db
      .insert(views)
      .values({ company, ...row })
      .onConflictDoUpdate({
        target: [views.company, views.job, views.name],
        set: { version: row.version, count: row.count, body: row.body },
        setWhere: sql`(${views.version}, ${views.count}) <= (excluded.version, excluded.count)`,
      })
  },
  dropViews: async () => {
    await db.delete(views)
  },
})
