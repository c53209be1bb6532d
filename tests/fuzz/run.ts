/** `npm run fuzz [-- --runs N] [--seed N]`: the fuzz of routes and readers, with more tries than the tests give it. */
import { spawn } from 'node:child_process'
import { parseArgs } from 'node:util'

const { values } = parseArgs({ options: { runs: { type: 'string' }, seed: { type: 'string' } } })
const runs = Number(values.runs ?? 2_000)
const seed = Number(values.seed ?? 20260421)
if (!Number.isSafeInteger(runs) || runs < 1 || !Number.isSafeInteger(seed)) {
  console.error('--runs is a whole number from 1 on, --seed a whole number.')
  process.exit(1)
}
const child = spawn('npx', ['vitest', 'run', '--project', 'fast', 'tests/api/fuzz.test.ts', 'tests/fuzz'], {
  stdio: 'inherit',
  env: { ...process.env, FUZZ_RUNS: String(runs), FUZZ_SEED: String(seed) },
})
child.on('exit', (code) => process.exit(code ?? 1))
