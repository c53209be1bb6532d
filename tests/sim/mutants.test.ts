import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { MUTANTS } from './mutants.ts'
import { withMistake } from './mutate.ts'

describe('[mutants] each mistake can be made in the product as it stands, and names the promise that it breaks', () => {
  for (const mutant of MUTANTS)
    test(`[mutants] ${mutant.name}`, () => {
      const text = readFileSync(new URL(`../../${mutant.file}`, import.meta.url), 'utf8')
      expect(withMistake(text, mutant)).not.toBe(text)
      expect(mutant.breaks).not.toBe('')
    })

  test('[mutants] there are 25 and more, of phone, log, sequencer and photos, under names of their own', () => {
    expect(MUTANTS.length).toBeGreaterThanOrEqual(25)
    expect(new Set(MUTANTS.map((mutant) => mutant.name)).size).toBe(MUTANTS.length)
  })
})
