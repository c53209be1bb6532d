import { readRoot } from '../../../api/domain/log/checkpoint.ts'
import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { verifyConsistency } from '../../../api/domain/log/proof.ts'
import { readConsistency } from '../../../api/domain/log/proof-file.ts'
import { sha256 } from '../../../api/server/senses.ts'
import type { Simulated } from '../simulate.ts'
import { isOffTree } from './contradiction.ts'
import type { Say } from './oracle.ts'
import type { ServerLog } from './server-log.ts'

/** Years later a stranger shows each slip: the log proves that it extends it, or that is found out. */
export const checkSlips = async (
  run: Simulated,
  log: ServerLog,
  mayBeOff: boolean,
  say: Say,
): Promise<void> => {
  for (const { origin, size, root } of run.slips) {
    const query = new URLSearchParams({ origin, size, root })
    const answer = await run.server.send(new Request(`http://house.test/api/slip?${query}`))
    if (isOffTree(log, { size: Number(size), root })) {
      // Only its holder can find that out, by asking: nobody's phone knows of a slip.
      if (!mayBeOff) say('a slip is off the final tree, though there is one history')
      if (answer.status === 200) say('the server proves that it extends a slip that it does not')
      continue
    }
    if (answer.status !== 200) {
      say(`a slip of this log is answered with ${answer.status}`)
      continue
    }
    const { consistency } = (await answer.json()) as { consistency: string }
    const file = readConsistency(toUtf8(consistency))
    const holds =
      file.ok &&
      verifyConsistency(
        {
          oldSize: Number(size),
          oldRoot: readRoot(root)!,
          newSize: file.value.new.size,
          newRoot: file.value.new.root,
          path: file.value.path,
        },
        sha256,
      )
    if (!holds) say('the proof that the log extends a slip does not hold')
  }
}
