/** `npm run simulate -- --seeds N [--first N]`: more seeded days than the tests run; stops at the first that fails. */
import { parseArgs } from 'node:util'
import { judge } from './judge.ts'

const { values } = parseArgs({ options: { seeds: { type: 'string' }, first: { type: 'string' } } })
const seeds = Number(values.seeds ?? 1_000)
const first = Number(values.first ?? 1)
const before = process.cpuUsage()
for (let seed = first; seed < first + seeds; seed++) {
  const broken = await judge(seed)
  if (broken.length > 0) {
    for (const sentence of broken) console.log(sentence)
    console.log(`replay: npm run simulate -- --first ${seed} --seeds 1`)
    process.exit(1)
  }
}
const { user, system } = process.cpuUsage(before)
console.log(`${seeds} seeds held; ${((user + system) / 1000 / seeds).toFixed(1)} ms CPU a seed`)
