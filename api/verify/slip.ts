import type { TreeHead } from '../domain/log/checkpoint.ts'
import { equalBytes } from '../domain/log/encoding.ts'
import { readSlip, type Slip, slipWords } from '../domain/log/slip.ts'
import type { Context } from './context.ts'
import type { Earlier } from './earlier.ts'
import type { LogState } from './inclusion.ts'
import type { Thread } from './thread.ts'

/** A slip as its holder gave it, by a name to call it by: its text, or its eight words alone. */
export type GivenSlip =
  | { readonly name: string; readonly bytes: Uint8Array }
  | { readonly name: string; readonly words: readonly string[] }

/** L36, L41.10. */
export const checkSlip = (
  context: Context,
  log: LogState,
  thread: Thread,
  earlier: Earlier,
  given: GivenSlip,
): void => {
  if ('words' in given) {
    checkWords(context, log, thread, earlier, given)
    return
  }
  const read = readSlip(given.bytes)
  if (read.ok) checkText(context, log, thread, earlier, given.name, read.value)
  else context.report(read.problem.code, given.name, 'it is no slip that this checker can read')
}

const checkText = (
  { report }: Context,
  { key, checkpoint }: LogState,
  thread: Thread,
  earlier: Earlier,
  slipName: string,
  { origin, head, count, last }: Slip,
): void => {
  if (key && origin !== key.name) report('slip-disagrees', slipName, 'it is of another log')
  const leafHash = thread.hashes[count - 1]
  const later = checkpoint !== undefined && head.size > checkpoint.size
  if (later)
    report(
      'slip-later',
      slipName,
      `it is of the log at size ${head.size}, later than the record’s checkpoint`,
    )
  if (leafHash ? !equalBytes(leafHash, last) : !later)
    report('slip-disagrees', slipName, `the thread has another leaf, or none, at count ${count}`)
  if (!checkpoint || later) return
  const root = head.size === checkpoint.size ? checkpoint.root : earlier.get(head.size)
  const name = `earlier/${head.size}.consistency`
  if (!root) report('consistency-missing', name, 'nothing leads from the slip’s size to the checkpoint')
  else if (!equalBytes(root, head.root))
    report('slip-disagrees', slipName, 'the log had another root at the slip’s size')
}

/**
 * Eight words say nothing that could be read out of them, so every slip that this record can show is tried: each state of
 * the log that leads to the checkpoint, with each place of the thread as its last one. 88 bits don't meet by chance.
 */
const checkWords = (
  { report, senses }: Context,
  { key, checkpoint }: LogState,
  thread: Thread,
  earlier: Earlier,
  { name, words }: Extract<GivenSlip, { readonly words: readonly string[] }>,
): void => {
  const heads: TreeHead[] = [
    ...[...earlier].map(([size, root]) => ({ size, root })),
    ...(checkpoint ? [checkpoint] : []),
  ]
  const wanted = words.join(' ')
  const fits = heads.some((head) =>
    thread.hashes.some(
      (last, i) =>
        key !== undefined &&
        i + 1 <= head.size &&
        slipWords({ origin: key.name, head, count: i + 1, last }, senses.sha256).join(' ') === wanted,
    ),
  )
  if (!fits)
    report('slip-unknown', name, 'no state of the log that this record can show has a slip of these words')
}
