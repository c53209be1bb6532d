import type { Signatures } from '../kit/ideal-signatures.ts'
import { oracle } from './oracle/oracle.ts'
import { simulate } from './simulate.ts'

/** What went wrong on the day of this seed, as sentences; none where every promise held. A throw is one too. */
export const judge = (seed: number, signatures?: Signatures): Promise<string[]> =>
  simulate(seed, signatures)
    .then(async (run) => {
      const broken = await run.turns.until(oracle(run))
      await run.turns.end()
      return broken
    })
    .catch((error: unknown) => [String(error instanceof Error ? error.stack : error)])
