import path from 'node:path'
import { buildScenario } from '../../seeds/build.ts'
import { TERN_COURT } from '../../seeds/jobs/tern-court/tern-court.ts'
import { foldMembers, type Person } from '../domain/access/members.ts'
import { isUnread, readEntry } from '../domain/entry/read.ts'
import { type Serving, startServer } from '../server/main.ts'
import { makeJoinCode } from '../server/routes/join-code.ts'
import { sha256 } from '../server/senses.ts'
import type { ServerWorld } from '../server/world.ts'
import { lookAtDemoFolder, markBuilding, markBuilt, markOurs, whatToRemove } from './demo-folder.ts'
import type { Io } from './main.ts'
import { addressFromEnvironment, serveUntilTold } from './serving.ts'
import { whatStandsInTheWay } from './stands-in-the-way.ts'

/** Another one than the log's own: a browser keeps what belongs to an address, and these two must not meet there. */
const PORT = 7374
const FOLDER = 'demo-data'
/** Whom a visitor can be. */
const OPENED_AS = ['Curt', 'Marisol', 'Beto']

/** Serves the demonstration, which its first start builds, in a folder of its own (DATA, else ./demo-data). */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  if (args.length > 0) {
    io.err('screedbook demo takes no arguments: PORT, HOST and DATA say where.')
    return 2
  }
  const address = addressFromEnvironment(PORT, io)
  if (!address) return 2
  const dataFolder = path.resolve(process.env.DATA ?? FOLDER)
  const stand = await lookAtDemoFolder(dataFolder)
  if (stand === 'not-ours' || stand === 'half-built') {
    io.err(await whyNotHere(stand, dataFolder))
    return 1
  }
  if (process.env.DATABASE_URL)
    io.err('The demonstration has a database of its own: DATABASE_URL is left alone.')
  const build = async (world: ServerWorld): Promise<void> => {
    io.out('Building the demonstration: one job, from its order to a call seven months later …')
    await markBuilding(dataFolder)
    await buildScenario(TERN_COURT, world)
    await markBuilt(dataFolder)
  }
  if (stand === 'new') await markOurs(dataFolder)
  const serving = await startServer({
    dataFolder,
    databaseUrl: undefined,
    log: io.err,
    ...address,
    demo: true,
    ...(stand === 'new' ? { prepare: build } : {}),
  })
  if (!serving.ok) {
    io.err(
      serving.problem.code === 'master-key-differs'
        ? `The database of an earlier demonstration is still there. Remove ${(await whatToRemove(dataFolder)).join(' and ')}, and start again.`
        : whatStandsInTheWay(serving.problem),
    )
    return 1
  }
  for (const line of await welcome(serving.value)) io.out(line)
  await serveUntilTold(serving.value)
  return 0
}

const whyNotHere = async (stand: 'not-ours' | 'half-built', folder: string): Promise<string> =>
  stand === 'not-ours'
    ? `${folder} holds something already that is no demonstration, and stays as it is. Name an empty folder: DATA=other-folder.`
    : `An earlier start was broken off while it built the demonstration. Remove ${(await whatToRemove(folder)).join(' and ')}, and start again (unless another start is building it just now).`

const welcome = async ({ url, world }: Pick<Serving, 'url' | 'world'>): Promise<string[]> => {
  const links: string[] = []
  for (const { company, person } of await peopleOf(world)) {
    const { code } = await makeJoinCode(world, { company, person: person.person, use: 'phone' })
    links.push(`  ${`${person.name}, ${person.role}`.padEnd(16)} ${url}/join#${code}`)
  }
  return [
    `Screedbook is at ${url}`,
    'This is a demonstration: people, companies and places in it are invented, and its keys are no secret.',
    'Open one of these, each once and in a browser profile of its own (good for 24 hours):',
    ...links,
  ]
}

const peopleOf = async (world: ServerWorld): Promise<{ company: string; person: Person }[]> => {
  const all: { company: string; person: Person }[] = []
  for (const company of await world.store.companies()) {
    const entries = (await world.store.thread(company, company)).flatMap(({ bytes }) => {
      const read = bytes && readEntry(bytes, sha256)
      return read?.ok && !isUnread(read.value) ? [read.value] : []
    })
    const { people } = foldMembers(entries)
    for (const person of people.values()) if (OPENED_AS.includes(person.name)) all.push({ company, person })
  }
  return all
}
