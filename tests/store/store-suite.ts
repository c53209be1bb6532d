import type { Stores } from '../../db/log-store/stores.ts'
import { accountSuite } from './suite/accounts.ts'
import { commitSuite } from './suite/commit.ts'
import { newsSuite } from './suite/news.ts'
import { readSuite } from './suite/reads.ts'
import { refusalSuite } from './suite/refusals.ts'
import { stampSuite } from './suite/stamps.ts'
import { stepSuite } from './suite/steps.ts'
import { transactSuite } from './suite/transact.ts'
import { viewSuite } from './suite/views.ts'

/** What the suite needs of a store. */
export type Subject = {
  readonly stores: Stores
  /** The same data as another process would see it; the same store where there is but one process. */
  readonly elsewhere: Stores
  /** Breaks the next commit: lost on its way, or kept and its answer lost. */
  breakNextCommit(outcome: 'lost' | 'kept'): void
}

/** Gives the one subject of a test file. */
export type Given = () => Subject

/** Holds a store to the promises of `db/log-store`. */
export const storeSuite = (given: Given): void => {
  transactSuite(given)
  commitSuite(given)
  stepSuite(given)
  refusalSuite(given)
  readSuite(given)
  newsSuite(given)
  accountSuite(given)
  viewSuite(given)
  stampSuite(given)
}
