import { expect, test } from 'vitest'
import { judge } from './judge.ts'
import { simulate } from './simulate.ts'

const SEEDS = Number(process.env.SEEDS ?? 200)
const FIRST = Number(process.env.FIRST_SEED ?? 1)

test(`[L45–L49] ${SEEDS} seeded days of phones and servers lose, double and alter nothing`, async () => {
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++)
    expect(await judge(seed), `replay: npm run simulate -- --first ${seed} --seeds 1`).toEqual([])
}, 600_000)

test('a seed replays: the same turns are taken twice', async () => {
  const [a, b] = [await simulate(7), await simulate(7)]
  expect(a.turns.taken).toEqual(b.turns.taken)
  expect(a.turns.taken.length).toBeGreaterThan(50)
}, 60_000)
