import { foldMembers } from '../../api/domain/access/members.ts'
import { isUnread, readEntry } from '../../api/domain/entry/read.ts'
import { readUtf8 } from '../../api/domain/log/encoding.ts'
import { type JobModel, jobModel } from '../../api/domain/record/job-model.ts'
import { sha256 } from '../../api/server/senses.ts'
import type { ServerWorld } from '../../api/server/world.ts'
import { type Built, buildScenario } from '../../seeds/build.ts'
import { TERN_COURT } from '../../seeds/jobs/tern-court/tern-court.ts'
import { createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'

export type DemoHouse = { readonly world: ServerWorld; readonly built: Built }

/** The demonstration, built in memory over the keys of all test houses. */
export const buildDemo = async (): Promise<DemoHouse> => {
  const house = await openHouse({ chance: createChance(1), now: () => 0 })
  const world: ServerWorld = { ...house.world, demo: true }
  const built = await buildScenario(TERN_COURT, world)
  await house.close()
  return { world, built }
}

/** The bytes of every entry in the log, in its order. */
export const textsOf = async ({ world, built }: DemoHouse, thread?: string): Promise<string[]> => {
  const leaves =
    thread === undefined
      ? (await world.store.page(built.company, 0, 10_000)).leaves
      : await world.store.thread(built.company, thread)
  return leaves.map((leaf) => readUtf8(leaf.bytes!)!)
}

/** What a phone, the server and the checker work out of the job. */
export const modelOf = async ({ world, built }: DemoHouse): Promise<JobModel> => {
  const read = async (thread: string) =>
    (await world.store.thread(built.company, thread)).flatMap(({ bytes, receivedAt }) => {
      const entry = readEntry(bytes!, sha256)
      return entry.ok && !isUnread(entry.value) ? [{ ...entry.value, receivedAt }] : []
    })
  return jobModel({
    job: built.job,
    entries: await read(built.job),
    members: foldMembers(await read(built.company)),
  })
}
