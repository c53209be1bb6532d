/** `npm run faults -- --kills 200 [--seed N]`: as in the tests, for longer, with the figures printed. */
import { parseArgs } from 'node:util'
import { killOneHouse } from './house.ts'

const { values } = parseArgs({ options: { kills: { type: 'string' }, seed: { type: 'string' } } })
const kills = Number(values.kills ?? 200)
const seed = Number(values.seed ?? Date.now() % 1_000_000)
console.log(`${kills} kills, seed ${seed}`)
const started = performance.now()
const report = await killOneHouse(kills, seed)
const seconds = Math.round((performance.now() - started) / 1000)
console.log(
  `killed the database ${report.killedDatabase} times and the server ${report.kills - report.killedDatabase} times`,
)
console.log(
  `${report.entries} entries by four phones in ${seconds} s; ${report.broken.length} promises broken`,
)
for (const sentence of report.broken) console.log(`  ${sentence}`)
process.exitCode = report.broken.length === 0 ? 0 : 1
