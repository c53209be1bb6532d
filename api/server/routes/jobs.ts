import type { LeafRow } from '../../../db/log-store/log-store.ts'
import { isUnread, readEntry } from '../../domain/entry/read.ts'
import type { LoggedEntry } from '../../domain/job/standing.ts'
import { type JobModel, jobModel } from '../../domain/record/job-model.ts'
import { problem } from '../middleware/problem.ts'
import type { Known } from '../middleware/session.ts'
import type { ServerWorld } from '../world.ts'
import { type House, known } from './route.ts'

/** Of the projection below: raised whenever what `jobModel` says changes, and then every row is built anew. */
export const JOB_VIEW_VERSION = 1
const JOB_VIEW = 'job'

export const jobs = known(async (c, house, asker) => {
  const threads = await house.world.store.threads(asker.company)
  const list = []
  for (const { job, count } of threads) {
    if (job === asker.company) continue
    const model = await modelOf(house, asker, job)
    list.push({ job, name: model?.name[0]?.text ?? '', entries: count })
  }
  return c.json({ jobs: list })
})

export const job = known(async (c, house, asker) => {
  const id = c.req.param('job') ?? ''
  const model = id === asker.company ? undefined : await modelOf(house, asker, id)
  if (!model) return problem(c, 'not-found')
  const row = await house.world.store.company(asker.company)
  return c.json({ job: id, size: row?.frontier.size ?? 0, model })
})

/** The job's model out of its projection if that is up to date, else built from the entries and kept. */
const modelOf = async (house: House, asker: Known, id: string): Promise<JobModel | undefined> => {
  const { world, sequencer } = house
  const { company } = asker
  const { members, count: affairs } = await sequencer.state(company)
  const thread = (await world.store.threads(company)).find((t) => t.job === id)
  if (!thread) return undefined
  // Names of people are the company's affairs: a view is as old as both threads that it was built from.
  const count = thread.count + affairs
  const view = await world.views.view(company, id, JOB_VIEW)
  if (view?.version === JOB_VIEW_VERSION && view.count === count) return JSON.parse(view.body) as JobModel
  const leaves = await world.store.thread(company, id)
  const model = jobModel({ job: id, entries: loggedEntries(leaves, world), members })
  const body = JSON.stringify(model)
  await world.views.putView(company, {
    job: id,
    name: JOB_VIEW,
    version: JOB_VIEW_VERSION,
    count: leaves.length + affairs,
    body,
  })
  return model
}

export const loggedEntries = (
  leaves: readonly LeafRow[],
  world: Pick<ServerWorld, 'sha256'>,
): LoggedEntry[] =>
  leaves.flatMap((leaf) => {
    const read = leaf.bytes && readEntry(leaf.bytes, world.sha256)
    if (!read?.ok) return []
    return [isUnread(read.value) ? read.value : { ...read.value, receivedAt: leaf.receivedAt }]
  })
