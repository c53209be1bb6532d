import type { TreeHead } from '../log/checkpoint.ts'
import { slipWords } from '../log/slip.ts'
import type { Sha256 } from '../world.ts'

/**
 * A record's short fingerprint: the eight words of the slip (SPEC L35) of its own checkpoint and its thread's last leaf.
 * It names the state of the log that the record was made of, not the file: two records of one state, in two languages or
 * with something withheld, have the same.
 */
export const fingerprintOf = (
  state: {
    readonly origin: string
    readonly checkpoint: TreeHead
    readonly count: number
    readonly lastLeaf: Uint8Array
  },
  sha256: Sha256,
): string =>
  slipWords(
    { origin: state.origin, head: state.checkpoint, count: state.count, last: state.lastLeaf },
    sha256,
  ).join(' ')
