import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readPhrase } from '../../../api/domain/phrase/read-phrase.ts'
import { createChance } from '../../kit/chance.ts'
import { nonsense } from './generator/say-nonsense.ts'

describe('[hear] nonsense', () => {
  test('[hear] 10,000 random strings never throw, and give no fact where no number and no event was said', () => {
    const chance = createChance(8)
    const wrong = Array.from({ length: 10_000 }, () => nonsense(chance)).filter(
      (said) => readPhrase(said).facts.length > 0,
    )
    expect(wrong.slice(0, 10)).toEqual([])
  })

  test('[hear] any text at all is read without a throw, and facts have a kind, a unit for each size, and no number out of nowhere', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (said) => {
        for (const fact of readPhrase(said).facts) {
          expect(fact.kind).toBeTruthy()
          if (typeof fact.value === 'number') expect(Number.isFinite(fact.value)).toBe(true)
        }
      }),
      { numRuns: 500, seed: 1 },
    )
  })
})
