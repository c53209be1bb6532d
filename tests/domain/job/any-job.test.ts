import fc from 'fast-check'
import { describe, test } from 'vitest'
import { anyJob } from '../../kit/any-job.ts'
import { isFunctionOfSet, isShown } from '../../kit/fold-laws.ts'

/** A few here; five thousand in tests/fold. */
const RUNS = { numRuns: 100, seed: 71340 }

describe('[L7] any job whatever, of all kinds of entry', () => {
  test('[L7] view, figures and model are a function of the set of its entries', () => {
    fc.assert(
      fc.property(anyJob, (job) => isFunctionOfSet(job)),
      RUNS,
    )
  })

  test('[record] figures are numbers, and model, pages in both languages and tables are made of it', () => {
    fc.assert(fc.property(anyJob, isShown), RUNS)
  })
})
