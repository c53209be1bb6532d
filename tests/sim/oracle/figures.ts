import { foldMembers, NO_MEMBERS } from '../../../api/domain/access/members.ts'
import { isUnread } from '../../../api/domain/entry/read.ts'
import { jobModel } from '../../../api/domain/record/job-model.ts'
import { phoneEntries } from '../../../web/sync/entries.ts'
import type { Simulated } from '../simulate.ts'
import type { Say } from './oracle.ts'
import type { ServerLog } from './server-log.ts'

/**
 * A job's figures are a function of the set of its entries: the server's page of a job says what a phone works out from
 * its own copy, in whatever order it reads it; and a phone one release behind reads the rest, and drops nothing.
 */
export const checkFigures = async (run: Simulated, log: ServerLog, say: Say): Promise<void> => {
  const owner = run.phones[0]!
  const { logged, older } = await owner.store.transact(async (tx) => ({
    logged: (await phoneEntries(tx, owner.phone.sha256)).logged,
    older: (await phoneEntries(tx, owner.phone.sha256, new Map(), 1)).logged,
  }))
  if (older.length !== logged.length) say('a phone one release behind drops what it can’t read')
  for (const [i, entry] of older.entries()) {
    const now = logged[i]!
    const newer = !isUnread(now) && now.entry.v > 1
    if (entry.hash !== now.hash || isUnread(entry) !== (newer || isUnread(now)))
      say('a phone one release behind reads an entry of its own release as newer, or the other way round')
  }
  const entries = logged.flatMap((e) => (isUnread(e) ? [] : [e]))
  const members = foldMembers(
    entries.filter((e) => e.entry.job === run.site.company),
    NO_MEMBERS,
  )
  for (const job of run.site.jobs) {
    // Its own entries that wait are not the server's yet.
    const ofJob = entries.filter((e) => e.entry.job === job && log.byHash.has(e.hash))
    const here = JSON.stringify(jobModel({ job, entries: ofJob, members }))
    const backwards = JSON.stringify(jobModel({ job, entries: ofJob.toReversed(), members }))
    if (here !== backwards) say('a job’s figures hang on the order in which its entries are read')
    const answer = await owner.phone.wire({ method: 'GET', path: `/api/jobs/${job}` })
    if (answer.status !== 200) continue
    const { model } = JSON.parse(new TextDecoder().decode(answer.body)) as { model: unknown }
    if (JSON.stringify(model) !== here) say('the server and a phone come to different figures')
  }
}
