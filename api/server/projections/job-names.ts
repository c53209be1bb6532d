import { foldJob } from '../../domain/job/fold.ts'
import type { ServerWorld } from '../world.ts'
import { loggedEntries } from './logged-entries.ts'

/** Raised whenever what a name is changes; rows of another version are built anew. */
const VERSION = 1
const NAME = 'job-name'

/** What each job is called, out of the projection where it is up to date, else folded from its entries and kept. */
export const jobNames = async (
  world: ServerWorld,
  company: string,
  threads: readonly { readonly job: string; readonly count: number }[],
): Promise<ReadonlyMap<string, string>> => {
  const kept = new Map((await world.views.views(company, NAME)).map((row) => [row.job, row]))
  const names = new Map<string, string>()
  for (const { job, count } of threads) {
    const row = kept.get(job)
    if (row?.version === VERSION && row.count === count) {
      names.set(job, row.body)
      continue
    }
    const leaves = await world.store.thread(company, job)
    const body = foldJob(job, loggedEntries(leaves, world)).name[0]?.value ?? ''
    names.set(job, body)
    await world.views.putView(company, { job, name: NAME, version: VERSION, count: leaves.length, body })
  }
  return names
}
