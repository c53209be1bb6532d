import { CommitUnknown } from '../../db/log-store/log-store.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { storeSuite } from './store-suite.ts'

let breaking: 'lost' | 'kept' | undefined

const stores = createMemoryStore({
  fault: (point) => {
    if (breaking === undefined || (breaking === 'lost') !== (point === 'before-commit')) return
    breaking = undefined
    throw new CommitUnknown(point)
  },
})

storeSuite(() => ({
  stores,
  elsewhere: stores,
  breakNextCommit: (outcome) => {
    breaking = outcome
  },
}))
