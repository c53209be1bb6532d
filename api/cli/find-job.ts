import type { LogStore } from '../../db/log-store/log-store.ts'
import { isUnread, readEntry } from '../domain/entry/read.ts'
import { foldJob } from '../domain/job/fold.ts'
import { sha256 } from '../server/senses.ts'

export type FoundJob = {
  readonly company: string
  readonly origin: string
  readonly job: string
  readonly name: string
}

/** Jobs under this id, or else under this name as it stands now, whatever its case; several may share a name. */
export const findJobs = async (store: LogStore, asked: string): Promise<FoundJob[]> => {
  const found: FoundJob[] = []
  for (const company of await store.companies()) {
    const origin = (await store.company(company))?.origin
    if (origin === undefined) continue
    for (const { job } of await store.threads(company)) {
      if (job === company) continue
      const names = await namesOf(store, company, job)
      const fits = job === asked || names.some((name) => name.toLowerCase() === asked.toLowerCase())
      if (fits) found.push({ company, origin, job, name: names[0] ?? '' })
    }
  }
  const byId = found.filter(({ job }) => job === asked)
  return byId.length > 0 ? byId : found
}

const namesOf = async (store: LogStore, company: string, job: string): Promise<string[]> => {
  const entries = (await store.thread(company, job)).flatMap(({ bytes }) => {
    const read = bytes && readEntry(bytes, sha256)
    return read?.ok && !isUnread(read.value) ? [read.value] : []
  })
  return foldJob(job, entries).name.map((said) => said.value)
}
