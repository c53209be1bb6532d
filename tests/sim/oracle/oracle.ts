import type { Simulated } from '../simulate.ts'
import { checkContradiction, isOffTree } from './contradiction.ts'
import { checkFigures } from './figures.ts'
import { checkPhone } from './phone.ts'
import { checkServerLog, readServerLog } from './server-log.ts'
import { checkSlips } from './slips.ts'

/** Says that a promise was broken; the sentence names who and what. */
export type Say = (sentence: string) => void

/** Every promise that a day broke, as sentences; none where all held. Bodies are compared, not only ids. */
export const oracle = async (run: Simulated): Promise<string[]> => {
  const broken: string[] = []
  const say: Say = (sentence) => broken.push(sentence)
  const log = await readServerLog(run, say)
  await checkServerLog(run, log, say)
  const stopped = (await run.server.stores.log.company(run.site.company))!.stopped
  const twoHistories = run.plan.trouble === 'server-restored' || run.plan.trouble === 'split-view'
  if (stopped && !twoHistories) say(`the log was stopped (${stopped.code}), though there is one history`)
  await checkContradiction(run, log, stopped, say)
  // A log that takes nothing more can't be brought into step; that nothing is lost or altered holds all the same.
  for (const phone of [...run.phones, ...run.past])
    await checkPhone(run, phone, log, { inStep: !stopped, mayHaveEvidence: twoHistories }, say)
  if (!stopped) {
    for (const { phone, size, root } of run.believed)
      if (isOffTree(log, { size, root }))
        say(`${phone} believed a checkpoint of size ${size} that is off the final tree`)
    if (run.plan.figures) await checkFigures(run, log, say)
  }
  await checkSlips(run, log, twoHistories, say)
  return broken
}
