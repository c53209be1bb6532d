/**
 * Projections: what can be dropped and rebuilt from entries at any time. Each row says which version of the fold built
 * it and how far in its thread it had read; a reader that finds another version or a lower count builds it anew.
 */
export type ViewRow = {
  readonly job: string
  readonly name: string
  readonly version: number
  readonly count: number
  readonly body: string
}

export type ViewStore = {
  view(company: string, job: string, name: string): Promise<ViewRow | undefined>
  /** The rows of this name of all of a company's jobs, in any order. */
  views(company: string, name: string): Promise<ViewRow[]>
  /** Keeps the row unless a newer one (by version, then count) is there. */
  putView(company: string, row: ViewRow): Promise<void>
  dropViews(): Promise<void>
}
