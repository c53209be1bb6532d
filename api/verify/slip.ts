import { equalBytes } from '../domain/log/encoding.ts'
import { readSlip } from '../domain/log/slip.ts'
import type { Context } from './context.ts'
import type { Earlier } from './earlier.ts'
import type { LogState } from './inclusion.ts'
import type { Thread } from './thread.ts'

/** A slip by the name of its file, as its holder gave it. */
export type GivenSlip = { readonly name: string; readonly bytes: Uint8Array }

/** L36, L41.10. */
export const checkSlip = (
  { report }: Context,
  { key, checkpoint }: LogState,
  thread: Thread,
  earlier: Earlier,
  slip: GivenSlip,
): void => {
  const read = readSlip(slip.bytes)
  if (!read.ok) {
    report(read.problem.code, slip.name, 'it is no slip that this checker can read')
    return
  }
  const { origin, head, count, last } = read.value
  if (key && origin !== key.name) report('slip-disagrees', slip.name, 'it is of another log')
  const leafHash = thread.hashes[count - 1]
  const later = checkpoint !== undefined && head.size > checkpoint.size
  if (later)
    report(
      'slip-later',
      slip.name,
      `it is of the log at size ${head.size}, later than the record’s checkpoint`,
    )
  if (leafHash ? !equalBytes(leafHash, last) : !later)
    report('slip-disagrees', slip.name, `the thread has another leaf, or none, at count ${count}`)
  if (!checkpoint || later) return
  const root = head.size === checkpoint.size ? checkpoint.root : earlier.get(head.size)
  const name = `earlier/${head.size}.consistency`
  if (!root) report('consistency-missing', name, 'nothing leads from the slip’s size to the checkpoint')
  else if (!equalBytes(root, head.root))
    report('slip-disagrees', slip.name, 'the log had another root at the slip’s size')
}
