import { expect, test } from 'vitest'
import { keysFrom, signingKey } from '../../api/server/keys.ts'
import { verifySignature } from '../../api/server/senses.ts'
import { createChance } from '../kit/chance.ts'
import { MASTER_KEY } from '../kit/house.ts'
import { judge } from './judge.ts'
import { makePlan } from './plan.ts'
import { simulate } from './simulate.ts'

/** `npm test` judges 3,000 (tests/sim/whole), `npm run simulate` as many as asked for. */
const SEEDS = 150

test(`[L45–L49] ${SEEDS} seeded days of phones and servers lose, double and alter nothing`, async () => {
  for (let seed = 1; seed <= SEEDS; seed++)
    expect(await judge(seed), `replay: npm run simulate -- --first ${seed} --seeds 1`).toEqual([])
}, 600_000)

test('[L45–L49] days under Ed25519, as they are under signatures that stand in for it', async () => {
  const real = { pair: signingKey, verify: verifySignature, keysOf: keysFrom(MASTER_KEY) }
  for (let seed = 1; seed <= 10; seed++) expect(await judge(seed, real), `seed ${seed}`).toEqual([])
}, 600_000)

test('a seed replays: the same turns are taken twice', async () => {
  const [a, b] = [await simulate(7), await simulate(7)]
  expect(a.turns.taken).toEqual(b.turns.taken)
  expect(a.turns.taken.length).toBeGreaterThan(50)
}, 60_000)

test('among a few hundred seeds every trouble comes many times', () => {
  const plans = Array.from({ length: 300 }, (_, seed) => makePlan(createChance(seed)))
  const times = new Map<string, number>()
  const count = (name: string) => times.set(name, (times.get(name) ?? 0) + 1)
  for (const plan of plans) {
    count(plan.trouble)
    if (plan.processes > 1) count('two processes')
    if (plan.office) count('an office')
    if (plan.updatedAt !== undefined) count('an update')
    if (plan.crew > 3) count('a large crew')
    if (plan.figures) count('figures')
  }
  expect(times.size).toBe(12)
  for (const [name, n] of times) expect(n, name).toBeGreaterThan(10)
})
