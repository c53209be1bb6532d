import { createWriteStream } from 'node:fs'
import { rename, rm } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { parseArgs } from 'node:util'
import { readSize } from '../domain/log/checkpoint.ts'
import type { Problem } from '../domain/result.ts'
import { LANGUAGES, type Language } from '../domain/words/words.ts'
import { RELEASE } from '../server/main.ts'
import { type OpenHouse, openHouse, placeFromEnvironment } from '../server/open.ts'
import { type MakeRecordProblem, makeRecord } from '../server/record/make-record.ts'
import { type FoundJob, findJobs } from './find-job.ts'
import { findScope, type TypedScope } from './find-scope.ts'
import type { Io } from './main.ts'
import { whatStandsInTheWay } from './stands-in-the-way.ts'

const USAGE =
  'screedbook export JOB --out FILE [--language en|es] [--checkpoint SIZE] [--placement NAME] [--load NUMBER] [--from DAY] [--to DAY] [--withhold personal|KIND …]'
const OPTIONS = {
  out: { type: 'string' },
  language: { type: 'string', default: 'en' },
  checkpoint: { type: 'string' },
  placement: { type: 'string' },
  load: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  withhold: { type: 'string', multiple: true },
} as const

type Asked = {
  readonly job: string
  readonly out: string
  readonly language: Language
  readonly checkpointSize: number | undefined
  /** The whole job where undefined. */
  readonly scope?: TypedScope
}

/** Writes the record of a job, by its id or its name. Returns 0 done, 1 not, 2 where the words are off. */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  const asked = readArgs(args)
  if (typeof asked === 'string') {
    io.err(asked)
    io.err(USAGE)
    return 2
  }
  const opened = await openHouse(placeFromEnvironment(io.err))
  if (!opened.ok) {
    io.err(whatStandsInTheWay(opened.problem))
    return 1
  }
  try {
    return await exportJob(opened.value, asked, io)
  } finally {
    await opened.value.close()
  }
}

const readArgs = (args: readonly string[]): Asked | string => {
  try {
    const { positionals, values } = parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true })
    const [job, ...more] = positionals
    const language = LANGUAGES.find((known) => known === values.language)
    const checkpointSize = values.checkpoint === undefined ? undefined : readSize(values.checkpoint)
    if (job === undefined || more.length > 0) return 'Name one job, by its id or its name (in quotes).'
    if (values.out === undefined) return 'Say where to write it: --out FILE.'
    if (!language) return `--language is one of ${LANGUAGES.join(', ')}.`
    if (values.checkpoint !== undefined && !checkpointSize)
      return '--checkpoint is the size of a signed checkpoint.'
    const { out, placement, load, from, to, withhold } = values
    return { job, out, language, checkpointSize, scope: { placement, load, from, to, withhold } }
  } catch (error) {
    return (error as Error).message
  }
}

/** Over a house that is open already. */
export const exportJob = async (
  house: Pick<OpenHouse, 'stores' | 'photos' | 'keysOf'>,
  asked: Asked,
  io: Io,
): Promise<number> => {
  const jobs = await findJobs(house.stores.log, asked.job)
  const [job, ...more] = jobs
  if (!job || more.length > 0) {
    io.err(
      job ? `Several jobs are called ${asked.job}; name one by its id:` : `There is no job ${asked.job}.`,
    )
    for (const found of more.length > 0 ? jobs : []) io.err(`  ${found.job}  ${found.name}`)
    return 1
  }
  const scope = await findScope(house.stores.log, job, asked.scope ?? {})
  if (typeof scope === 'string') {
    io.err(scope)
    return 2
  }
  const made = await makeRecord({
    store: house.stores.log,
    company: job.company,
    job: job.job,
    language: asked.language,
    checkpointSize: asked.checkpointSize,
    scope,
    release: RELEASE,
    log: house.keysOf(job.origin).log,
    photos: async (hash) => (await house.photos.open(job.company, hash))?.stream,
  })
  if (!made.ok) {
    io.err(sentenceOf(made.problem, job))
    return 1
  }
  await writeWhole(made.value, asked.out)
  io.out(`${asked.out} holds the record of ${job.name}. Check it with: screedbook verify ${asked.out}`)
  return 0
}

/** Under another name until all of it is there: half a record must not pass for one. */
const writeWhole = async (stream: ReadableStream<Uint8Array>, out: string): Promise<void> => {
  const part = `${out}.part`
  try {
    await pipeline(
      Readable.fromWeb(stream as Parameters<typeof Readable.fromWeb>[0]),
      createWriteStream(part),
    )
    await rename(part, out)
  } catch (error) {
    await rm(part, { force: true })
    throw error
  }
}

const sentenceOf = ({ code, at, evidence = {} }: Problem<MakeRecordProblem>, job: FoundJob): string => {
  switch (code) {
    case 'not-found':
      return `The log had no entry of ${job.name} at that checkpoint.`
    case 'checkpoint-unknown':
      return 'The log never signed a checkpoint of that size.'
    case 'scope-load':
      return `${job.name} had no load ${at} at that checkpoint.`
    case 'scope-placement':
      return `${job.name} had no placement ${at} at that checkpoint.`
    case 'scope-empty':
      return 'Nothing would be left in such a record. Ask for more days, or withhold less.'
    case 'check-page-unbuilt':
      return `The checker’s page is not built. Run npm run build. It said: ${evidence.said}`
    case 'typeset-time':
      return `The page took longer than ${evidence.ms} ms to set and was given up.`
    case 'typeset-memory':
      return 'The page took too much memory to set and was given up.'
    case 'typeset-failed':
      return `The page could not be set. Typst said: ${evidence.said}`
  }
}
