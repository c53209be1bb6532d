import { jobModel } from '../../domain/record/job-model.ts'
import { problem } from '../middleware/problem.ts'
import { jobNames } from '../projections/job-names.ts'
import { loggedEntries } from '../projections/logged-entries.ts'
import { known } from './route.ts'

export const jobs = known(async (c, { world }, { company }) => {
  const threads = (await world.store.threads(company)).filter(({ job }) => job !== company)
  const names = await jobNames(world, company, threads)
  return c.json({
    jobs: threads.map(({ job, count }) => ({ job, name: names.get(job) ?? '', entries: count })),
  })
})

/** Folded anew for each who asks: at some ten milliseconds a job it needs no projection (db/DECISIONS). */
export const job = known(async (c, { world, sequencer }, { company }) => {
  const id = c.req.param('job') ?? ''
  const leaves = id === company ? [] : await world.store.thread(company, id)
  if (leaves.length === 0) return problem(c, 'not-found')
  const row = await world.store.company(company)
  const { members } = await sequencer.state(company)
  const model = jobModel({ job: id, entries: loggedEntries(leaves, world), members })
  return c.json({ job: id, size: row?.frontier.size ?? 0, model })
})
