import type { ViewRow, ViewStore } from '../log-store/view-store.ts'

/** Projections in memory. */
export const createMemoryViews = (): ViewStore => {
  const byCompany = new Map<string, Map<string, ViewRow>>()
  const keyOf = (job: string, name: string) => JSON.stringify([job, name])
  return {
    view: async (company, job, name) => {
      const row = byCompany.get(company)?.get(keyOf(job, name))
      return row && { ...row }
    },
    views: async (company, name) =>
      [...(byCompany.get(company)?.values() ?? [])]
        .filter((row) => row.name === name)
        .map((row) => ({ ...row })),
    putView: async (company, row) => {
      const views = byCompany.get(company) ?? new Map<string, ViewRow>()
      byCompany.set(company, views)
      const key = keyOf(row.job, row.name)
      const there = views.get(key)
      if (!there || !isNewer(there, row)) views.set(key, { ...row })
    },
    dropViews: async () => byCompany.clear(),
  }
}

const isNewer = (there: ViewRow, row: ViewRow): boolean =>
  there.version > row.version || (there.version === row.version && there.count > row.count)
