import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import { pageOf } from '../../api/domain/record/page/page.ts'
import { LANGUAGES } from '../../api/domain/words/words.ts'
import { typeset } from '../../api/server/record/typeset/typeset.ts'
import { pageDifference } from '../../api/verify/page-text.ts'
import { anyJob, entriesOf } from '../kit/any-job.ts'
import { recordOf } from '../kit/fold-laws.ts'

test('[L41.11] whatever was logged, the paper says all of it, in order, and nothing else', async () => {
  await fc.assert(
    fc.asyncProperty(anyJob, fc.constantFrom(...LANGUAGES), async (job, language) => {
      const page = pageOf({ ...recordOf(entriesOf(job)), language })
      const pdf = await typeset(page, { language, createdAt: 0 })
      if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
      expect(await pageDifference(page, () => readPdfText(pdf.value))).toBeUndefined()
    }),
    { seed: 41, numRuns: Number(process.env.PAPERS ?? 20), endOnFailure: true },
  )
})
