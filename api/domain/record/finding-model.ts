import type { JobFinding } from '../job/findings/finding.ts'
import { type HowRead, SOURCES, type Source, type SourceId } from '../trade/sources.ts'

/** Where a limit or a formula comes from: document, edition, clause, and how its figure came to us. */
export type SourceModel = {
  readonly id: SourceId
  readonly title: string
  readonly edition: string
  readonly clause: string
  readonly how: HowRead
}

/** A comparison as a record says it: texts and codes, with its sources written out. */
export type FindingModel = Omit<JobFinding, 'source' | 'formula'> & {
  readonly source?: SourceModel
  readonly formula?: SourceModel
}

export const findingModel = ({ source, formula, ...rest }: JobFinding): FindingModel => ({
  ...rest,
  ...(source === undefined ? {} : { source: sourceModel(source) }),
  ...(formula === undefined ? {} : { formula: sourceModel(formula) }),
})

const sourceModel = (id: SourceId): SourceModel => {
  const { title, edition, clause, how }: Source = SOURCES[id]
  return { id, title, edition, clause, how }
}
