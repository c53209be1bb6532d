import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { ReferenceCase } from '../../kit/trade-cases/case.ts'
import { readKey } from '../../kit/trade-cases/keys.ts'
import { runCase } from '../../kit/trade-cases/run-case.ts'

const FOLDER = new URL('../../cases/', import.meta.url)
const FILES = readdirSync(FOLDER).filter((name) => name.startsWith('trade-'))
const read = (name: string) => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as ReferenceCase[]

/** No computation of this trade: a town’s own rule, a contract’s terms, what a crack looks like, advice, a property of cement. */
const NO_FUNCTION = [
  'ordinance-drive',
  'chg-bid-min',
  'crack-plastic-spacing',
  'crack-plastic-size',
  'crack-scaling-airvoid',
  'crack-deicer-wait',
  'crack-deicer-dry',
  'wet-ph',
  'practice-first-edging',
]

for (const file of FILES)
  describe(`[trade] ${file}`, () => {
    for (const one of read(file))
      test(`[trade] ${one.id}: ${one.source}`, () => {
        const outcome = runCase(one)
        if (NO_FUNCTION.includes(one.id)) expect(outcome.status).toBe('no function')
        // A case from memory may warn: then the memory is to be checked, not the function.
        else expect(['pass', 'warn'], JSON.stringify(outcome)).toContain(outcome.status)
      })
  })

test('[trade] each case has its own id, a source, and says how that was read', () => {
  const all = FILES.flatMap(read)
  expect(new Set(all.map(({ id }) => id)).size).toBe(all.length)
  for (const { id, source, basis } of all) {
    expect(source, id).not.toBe('')
    expect(['printed', 'derived', 'memory', 'practice'], id).toContain(basis)
  }
})

const wrong = (change: Partial<ReferenceCase>): ReferenceCase => ({
  ...read('trade-evaporation.json').find(({ id }) => id === 'evap-uno-us-4')!,
  ...change,
})

test('[trade] the runner tells a wrong answer, warns of a wrong memory, and leaves alone what it can’t ask', () => {
  expect(runCase(wrong({ expected: { uno_us_lb_ft2_h: 0.2 } })).status).toBe('fail')
  expect(runCase(wrong({ expected: { uno_us_lb_ft2_h: 0.2 }, basis: 'memory' })).status).toBe('warn')
  expect(runCase(wrong({ expected: { shine: 3 } })).status).toBe('no function')
  const more = { ...wrong({}).inputs, sun: true }
  expect(runCase(wrong({ inputs: more })).status, 'an input that no function knows').toBe('no function')
})

test('[trade] a case is bound by what it asks: the same question in other units has the same answer', () => {
  const metric = { concrete_temp_C: 70 / 1.8 - 32 / 1.8, air_temp_F: 70, rh_pct: 30, wind_km_h: 16.09344 }
  const outcome = runCase(
    wrong({ inputs: metric, expected: { uno_us_kg_m2_h: 0.1435 * 4.88243 }, tolerance: { abs: 0.001 } }),
  )
  expect(outcome.status, JSON.stringify(outcome)).toBe('pass')
})

test('[trade] a value out of its range is told as the function’s own problem', () => {
  const inputs = { ...wrong({}).inputs, rh_pct: 120 }
  expect(runCase(wrong({ inputs }))).toMatchObject({
    status: 'fail',
    got: { problem: { code: 'out-of-range', at: '/humidity' } },
  })
})

test('[trade] keys are read by their longest unit', () => {
  expect(readKey('wind_km_h')).toEqual({ name: 'wind', unit: 'km/h' })
  expect(readKey('yd3')).toEqual({ name: '', unit: 'yd3' })
  expect(readKey('strength_loss_MPa_min')).toEqual({ name: 'strength_loss_min', unit: 'MPa' })
  expect(readKey('max_w_cm')).toEqual({ name: 'max_w_cm', unit: undefined })
  expect(readKey('criterion_a')).toEqual({ name: 'criterion_a', unit: undefined })
})
