import { readCheckpoint } from '../../../api/domain/log/checkpoint.ts'
import { toBase64, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { openNote, readVerifierKey } from '../../../api/domain/log/note.ts'
import { sha256 } from '../../../api/server/senses.ts'
import type { CompanyRow } from '../../../db/log-store/log-store.ts'
import { getMeta } from '../../../web/sync/kept.ts'
import type { Simulated } from '../simulate.ts'
import type { Say } from './oracle.ts'
import type { ServerLog } from './server-log.ts'

/** Whether a checkpoint can't be of the final tree: larger, or of another root at its size. */
export const isOffTree = (log: ServerLog, head: { size: number; root: string }): boolean =>
  log.roots[head.size] !== head.root

/**
 * Whoever verified a history that the final server does not have finds it out: that phone keeps evidence, and the server
 * has stopped and keeps a note that its own key signed and its tree contradicts (SPEC L48, L49).
 */
export const checkContradiction = async (
  run: Simulated,
  log: ServerLog,
  stopped: CompanyRow['stopped'],
  say: Say,
): Promise<void> => {
  const newest = new Map(run.believed.map((head) => [head.phone, head]))
  for (const phone of run.phones) {
    const head = newest.get(phone.name)
    if (!head || !isOffTree(log, head)) continue
    const evidence = (await phone.store.transact((tx) => getMeta(tx, 'evidence'))) ?? []
    if (evidence.length === 0 && !phone.withdrawn)
      say(`${phone.name} holds a checkpoint off the final tree, and no evidence of it`)
    if (!stopped) say(`${phone.name} holds a checkpoint off the final tree, and the server goes on`)
  }
  if (!stopped) return
  const owner = run.phones[0]!
  const identity = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  const key = readVerifierKey(identity.logKey, sha256)
  const text = key.ok ? await openNote(toUtf8(stopped.evidence), [key.value], owner.phone) : key
  const head = text.ok ? readCheckpoint(text.value) : text
  if (!head.ok) say('the log was stopped for a note that its key never signed')
  else if (!isOffTree(log, { size: head.value.size, root: toBase64(head.value.root) }))
    say('the log was stopped for a note that its tree does not contradict')
}
