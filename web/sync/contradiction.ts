import { MAX_PULL, pullAnswer } from '../../api/contract/messages/pull.ts'
import { equalBytes, readHex } from '../../api/domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, type Frontier, rootOf } from '../../api/domain/log/tree.ts'
import { ask, readAnswer } from './answer.ts'
import { getMeta, type Identity } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'
import { type PullDoubt, verifyStretch } from './verify-stretch.ts'

/**
 * A checkpoint that the log signed over another past than ours, if its whole history shows so; leaves that an honest
 * log's answer lost or changed on its way prove nothing. Costs a reading of the log from its start.
 */
export const contradictionIn = async (
  world: PhoneWorld,
  identity: Identity,
  ours: Frontier,
  doubt: PullDoubt,
): Promise<string | undefined> => {
  if (doubt !== 'checkpoint-contradicts') return undefined
  const known = await world.store.transact((tx) => getMeta(tx, 'evidence'))
  // Proven once is enough: a phone that goes on asking must not read the whole log each time.
  if (known?.some((evidence) => evidence.code === doubt)) return undefined
  const root = rootOf(ours, world.sha256)
  for (let at = EMPTY_FRONTIER; at.size < ours.size; ) {
    const path = `/api/pull?from=${at.size}&limit=${MAX_PULL}`
    const answer = readAnswer(await ask(world, { method: 'GET', path }), pullAnswer)
    if (!answer.ok || answer.value.checkpoint === null) return undefined
    const stretch = await verifyStretch(world, identity, at, answer.value, answer.value.checkpoint)
    if ('doubt' in stretch || stretch.leaves.length === 0) return undefined
    const toOurs = stretch.leaves.slice(0, ours.size - at.size).map((l) => readHex(l.leafHash)!)
    const theirs = appendAll(at, toOurs, world.sha256)
    if (theirs.size === ours.size && !equalBytes(rootOf(theirs, world.sha256), root))
      return answer.value.checkpoint
    at = stretch.frontier
  }
  return undefined
}
