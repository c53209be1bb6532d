/**
 * `npm run mutants [-- --seeds N] [--only TEXT] [--workers N]`: makes each mistake of `mutants.ts` in a copy of the
 * product, and tells after how many seeds the simulator has found it. Fails where it misses one.
 */
import { spawn } from 'node:child_process'
import { cp, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { availableParallelism, tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { MUTANTS, type Mutant } from './mutants.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
/** All that the simulator runs. */
const PARTS = ['api', 'db', 'web/sync', 'tests/sim', 'tests/kit', 'package.json', 'tsconfig.json']
/** A mistake that makes a day go round in circles is found too, but says so late. */
const MOST_MS = 10 * 60 * 1000

/** The text with the mistake in it. Throws where the product has moved on and the edit no longer fits. */
export const withMistake = (text: string, { name, file, edits }: Mutant): string =>
  edits.reduce((before, [from, to]) => {
    const parts = before.split(from)
    if (parts.length !== 2)
      throw new Error(`“${name}”: ${file} holds ${parts.length - 1} times, not once: ${from}`)
    return parts.join(to)
  }, text)

type Hunt = { readonly seeds: number | undefined; readonly sentence: string }

const makeCopy = async (): Promise<string> => {
  const copy = await mkdtemp(path.join(tmpdir(), 'screedbook-mutants-'))
  for (const part of PARTS) await cp(path.join(ROOT, part), path.join(copy, part), { recursive: true })
  await symlink(path.join(ROOT, 'node_modules'), path.join(copy, 'node_modules'))
  return copy
}

const hunt = async (copy: string, mutant: Mutant, seeds: number): Promise<Hunt> => {
  const file = path.join(copy, mutant.file)
  const text = await readFile(file, 'utf8')
  await writeFile(file, withMistake(text, mutant))
  try {
    return await simulateIn(copy, seeds)
  } finally {
    await writeFile(file, text)
  }
}

const simulateIn = (copy: string, seeds: number): Promise<Hunt> =>
  new Promise((resolve) => {
    const args = ['--import', 'tsx', 'tests/sim/run.ts', '--seeds', String(seeds), '--workers', '1']
    const child = spawn(process.execPath, args, { cwd: copy, timeout: MOST_MS })
    let printed = ''
    child.stdout.on('data', (text) => {
      printed += text
    })
    child.stderr.on('data', (text) => {
      printed += text
    })
    child.on('close', (code, signal) => {
      const failed = /--first (\d+) --seeds 1$/m.exec(printed)?.[1]
      const [sentence = ''] = printed.split('\n')
      if (failed) resolve({ seeds: Number(failed), sentence })
      else
        resolve({
          seeds: undefined,
          sentence: code === 0 ? '' : `ended by ${signal ?? code}: ${printed.slice(0, 300)}`,
        })
    })
  })

const main = async (): Promise<void> => {
  const { values } = parseArgs({
    options: { seeds: { type: 'string' }, only: { type: 'string' }, workers: { type: 'string' } },
  })
  const seeds = Number(values.seeds ?? 200)
  const list = MUTANTS.filter((mutant) => mutant.name.includes(values.only ?? ''))
  const waiting = [...list]
  let missed = 0
  const work = async (): Promise<void> => {
    const copy = await makeCopy()
    try {
      for (let mutant = waiting.shift(); mutant; mutant = waiting.shift()) {
        const found = await hunt(copy, mutant, seeds)
        if (found.seeds === undefined) missed++
        const after = found.seeds === undefined ? 'MISSED' : `${found.seeds}`.padStart(6)
        console.log(
          `${after}  ${mutant.name} (${mutant.file})\n        breaks: ${mutant.breaks}\n        said: ${found.sentence}`,
        )
      }
    } finally {
      await rm(copy, { recursive: true, force: true })
    }
  }
  const workers = Math.min(Number(values.workers ?? availableParallelism()), list.length)
  await Promise.all(Array.from({ length: workers }, work))
  console.log(`${list.length - missed} of ${list.length} mistakes found, each within ${seeds} seeds`)
  if (missed > 0) process.exit(1)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main()
