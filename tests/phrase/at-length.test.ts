import { describe, expect, test } from 'vitest'
import { readPhrase } from '../../api/domain/phrase/read-phrase.ts'
import { nonsense } from '../domain/phrase/generator/say-nonsense.ts'
import { sentence } from '../domain/phrase/generator/say-sentence.ts'
import { type Spoken, score } from '../domain/phrase/score.ts'
import { createChance } from '../kit/chance.ts'

/** The same as in tests/domain/phrase, at the length that takes too long for every commit. */
describe('[hear] at length', () => {
  test('[hear] of 10,000 sentences made anew, 99 % keep all their facts', () => {
    const chance = createChance(20_260_422)
    const made: Spoken[] = Array.from({ length: 10_000 }, (_, i) => ({
      id: `made ${i}`,
      lang: '',
      ...sentence(chance),
    }))
    const { misses } = score(made, (said) => readPhrase(said).facts)
    expect(misses.length, misses.slice(0, 20).join('\n')).toBeLessThanOrEqual(100)
  })

  test('[hear] 100,000 random strings never throw, and give no fact where no number and no event was said', () => {
    const chance = createChance(9)
    const wrong: string[] = []
    for (let i = 0; i < 100_000; i++) {
      const said = nonsense(chance)
      if (readPhrase(said).facts.length > 0) wrong.push(said)
    }
    expect(wrong.slice(0, 10)).toEqual([])
  })
})
