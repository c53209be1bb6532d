/**
 * `npm run simulate -- --seeds N [--first N] [--workers N]`: more seeded days than the tests run, in one process a CPU;
 * stops at the first that fails and prints the line that replays it.
 */
import { type ChildProcess, fork } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { judge } from './judge.ts'

type Chunk = { readonly first: number; readonly seeds: number }
/** `cpu`: milliseconds. `failed`: the seed at which it stopped. */
type Judged = {
  readonly cpu: number
  readonly broken: readonly string[]
  readonly failed: number | undefined
}

const judgeChunk = async ({ first, seeds }: Chunk): Promise<Judged> => {
  const before = process.cpuUsage()
  const cpu = () => {
    const { user, system } = process.cpuUsage(before)
    return (user + system) / 1000
  }
  for (let seed = first; seed < first + seeds; seed++) {
    const broken = await judge(seed)
    if (broken.length > 0) return { cpu: cpu(), broken, failed: seed }
  }
  return { cpu: cpu(), broken: [], failed: undefined }
}

const CHUNK = 250
const PROGRESS = 10_000

const main = async (): Promise<void> => {
  const { values } = parseArgs({
    options: { seeds: { type: 'string' }, first: { type: 'string' }, workers: { type: 'string' } },
  })
  const seeds = Number(values.seeds ?? 1_000)
  const first = Number(values.first ?? 1)
  const workers = Math.min(Number(values.workers ?? availableParallelism()), Math.ceil(seeds / CHUNK))
  if (![seeds, first, workers].every((n) => Number.isSafeInteger(n) && n > 0)) {
    console.error('--seeds, --first and --workers are whole numbers from 1 on.')
    process.exit(1)
  }
  const started = performance.now()
  let next = first
  let done = 0
  let cpu = 0
  const take = (): Chunk | undefined => {
    if (next >= first + seeds) return undefined
    const chunk = { first: next, seeds: Math.min(CHUNK, first + seeds - next) }
    next += chunk.seeds
    return chunk
  }
  const count = (judged: Judged, chunk: Chunk): void => {
    if (judged.failed !== undefined) {
      for (const sentence of judged.broken) console.log(sentence)
      console.log(`replay: npm run simulate -- --first ${judged.failed} --seeds 1`)
      process.exit(1)
    }
    cpu += judged.cpu
    done += chunk.seeds
    if (Math.floor(done / PROGRESS) > Math.floor((done - chunk.seeds) / PROGRESS)) console.log(`${done} held`)
  }
  if (workers <= 1) for (let chunk = take(); chunk; chunk = take()) count(await judgeChunk(chunk), chunk)
  else await Promise.all(Array.from({ length: workers }, () => drive(take, count)))
  const seconds = ((performance.now() - started) / 1000).toFixed(0)
  console.log(`${done} seeds held in ${seconds} s; ${(cpu / done).toFixed(1)} ms CPU a seed`)
}

/** Gives one worker chunk after chunk until none is left. */
const drive = async (
  take: () => Chunk | undefined,
  count: (judged: Judged, chunk: Chunk) => void,
): Promise<void> => {
  const worker = fork(fileURLToPath(import.meta.url), [], { env: { ...process.env, SIMULATE: 'worker' } })
  for (let chunk = take(); chunk; chunk = take()) count(await ask(worker, chunk), chunk)
  worker.disconnect()
}

const ask = (worker: ChildProcess, chunk: Chunk): Promise<Judged> =>
  new Promise((resolve, reject) => {
    const died = (code: number | null) =>
      reject(
        new Error(`a worker ended (${code}) within seeds ${chunk.first} to ${chunk.first + chunk.seeds - 1}`),
      )
    worker.once('exit', died)
    worker.once('message', (judged) => {
      worker.off('exit', died)
      resolve(judged as Judged)
    })
    worker.send(chunk)
  })

if (process.env.SIMULATE === 'worker') {
  // Another worker's seed has failed: whoever waited for this one's is gone.
  process.on('disconnect', () => process.exit())
  process.on('message', (chunk) => void judgeChunk(chunk as Chunk).then((judged) => process.send!(judged)))
} else await main()
