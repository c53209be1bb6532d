import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('../../..', import.meta.url))
const SEEDS = 3_000

test(`[L45–L49] ${SEEDS} seeded days lose, double and alter nothing`, async () => {
  const printed = await new Promise<string>((resolve) => {
    const args = ['--import', 'tsx', 'tests/sim/run.ts', '--seeds', String(SEEDS)]
    const child = spawn(process.execPath, args, { cwd: ROOT })
    let text = ''
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (piece) => {
        text += piece
      })
    child.on('close', () => resolve(text))
  })
  expect(printed).toContain(`${SEEDS} seeds held`)
}, 900_000)
