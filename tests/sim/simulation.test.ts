import { expect, test } from 'vitest'
import { oracle } from './oracle.ts'
import { simulate } from './simulate.ts'

const SEEDS = Number(process.env.SEEDS ?? 200)
const FIRST = Number(process.env.FIRST_SEED ?? 1)

test(`[L45–L48] ${SEEDS} seeded days of two phones and a server lose, double and alter nothing`, async () => {
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
    const replay = `replay: FIRST_SEED=${seed} SEEDS=1 npx vitest run tests/sim`
    const broken = await simulate(seed).then(oracle, (error: unknown) => [
      String(error instanceof Error ? error.stack : error),
    ])
    expect(broken, replay).toEqual([])
  }
}, 600_000)

test('a seed replays: the same turns are taken twice', async () => {
  const [a, b] = [await simulate(7), await simulate(7)]
  expect(a.turns).toEqual(b.turns)
  expect(a.turns.length).toBeGreaterThan(50)
}, 60_000)
