import type { ViewRow, ViewStore } from '../log-store/view-store.ts'

/** Projections in memory. */
export const createMemoryViews = (): ViewStore => {
  const views = new Map<string, ViewRow>()
  const keyOf = (company: string, job: string, name: string) => JSON.stringify([company, job, name])
  return {
    view: async (company, job, name) => {
      const row = views.get(keyOf(company, job, name))
      return row && { ...row }
    },
    putView: async (company, row) => {
      const key = keyOf(company, row.job, row.name)
      const there = views.get(key)
      if (!there || !isNewer(there, row)) views.set(key, { ...row })
    },
    dropViews: async () => views.clear(),
  }
}

const isNewer = (there: ViewRow, row: ViewRow): boolean =>
  there.version > row.version || (there.version === row.version && there.count > row.count)
