import { expect, test } from 'vitest'
import { CommitUnknown } from '../../../db/log-store/log-store.ts'
import { createPen } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { appendTo, newCompany } from './company.ts'

export const commitSuite = (given: Given): void => {
  for (const outcome of ['lost', 'kept'] as const) {
    test(`[commit unknown] a commit that is ${outcome} and not answered throws CommitUnknown, and a new look tells`, async () => {
      const { stores, elsewhere, breakNextCommit } = given()
      const { company, pen } = await newCompany(stores.log)
      await appendTo(stores.log, company, pen.append('before'))
      const before = pen.state()
      breakNextCommit(outcome)
      await expect(appendTo(stores.log, company, pen.append('a', 'b'))).rejects.toBeInstanceOf(CommitUnknown)

      // The next transaction waits for the old one to be settled, one way or the other.
      const size = await stores.log.transact(company, async (tx) => (await tx.company())?.frontier.size)
      expect(size).toBe(outcome === 'kept' ? 3 : 1)
      expect((await elsewhere.log.page(company, 0, 10)).leaves).toHaveLength(size!)

      const next = outcome === 'kept' ? pen : createPen(before)
      await appendTo(stores.log, company, next.append('c'))
      expect((await stores.log.company(company))?.frontier).toEqual(next.state().frontier)
    })
  }
}
