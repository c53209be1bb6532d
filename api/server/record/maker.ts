import type { OpenHouse } from '../open.ts'
import type { RecordMaker } from '../world.ts'
import { type MakeRecordProblem, makeRecord } from './make-record.ts'

const NOT_THERE: ReadonlySet<MakeRecordProblem> = new Set([
  'not-found',
  'checkpoint-unknown',
  'scope-load',
  'scope-placement',
  'scope-empty',
])

/** The record's maker over an opened house; undefined where there is no such job, checkpoint, load or placement. */
export const recordMaker =
  (house: Pick<OpenHouse, 'stores' | 'photos' | 'keysOf'>, release: string): RecordMaker =>
  async ({ company, job, language, checkpointSize, scope }) => {
    const row = await house.stores.log.company(company)
    if (!row) return undefined
    const made = await makeRecord({
      store: house.stores.log,
      company,
      job,
      language,
      checkpointSize,
      scope,
      release,
      log: house.keysOf(row.origin).log,
      photos: async (hash) => (await house.photos.open(company, hash))?.stream,
    })
    if (made.ok) return made.value
    if (NOT_THERE.has(made.problem.code)) return undefined
    // Not the asker's doing: the server answers that it can't, and its log says why.
    throw new Error(`the record of ${job} was not typeset: ${JSON.stringify(made.problem)}`)
  }
