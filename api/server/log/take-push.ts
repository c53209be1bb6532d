import type { PushVerdict } from '../../contract/messages/push.ts'
import type { HashedEntry } from '../../domain/entry/read.ts'
import { isUnread } from '../../domain/entry/read.ts'
import { equalBytes } from '../../domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../domain/log/tree.ts'
import type { Senses } from '../../domain/world.ts'
import { admit } from './admit.ts'
import type { Draft } from './draft.ts'
import { sayPhotoReceived } from './photo-arrival.ts'
import { extendBy, type NotTaken, placeOf } from './place.ts'
import { carryOut, type Reads, setAsidePush, whyNotDecided } from './quarantine.ts'
import type { PushedEntry, ReadPush } from './read-push.ts'
import { refuse } from './refuse.ts'

export type PushTaken =
  | { readonly ok: true; readonly verdicts: readonly PushVerdict[]; readonly size: number }
  | NotTaken

/**
 * One push, within the sequencer's transaction: whether it fits the device's log, then each entry by itself, in order.
 * A refused entry keeps its place in the device's log and is noted by its hash; those after it go on.
 */
export const takePush =
  (device: string, push: ReadPush, senses: Reads) =>
  async (draft: Draft): Promise<PushTaken> => {
    if (draft.isStopped()) return { ok: false, code: 'log-stopped' }
    const from = draft.state().members.devices.get(device)
    if (!from) return { ok: false, code: 'not-signed-in' }
    if (push.seen && !(await holds(draft, push.seen.checkpoint, senses))) {
      // Our own key signed a history that we do not have: we were restored from a backup, or are one of two.
      draft.stop('log-contradicted', push.seen.note)
      return { ok: false, code: 'log-contradicted' }
    }
    if (from.withdrawn) {
      await setAsidePush(draft, device, push)
      const verdicts: PushVerdict[] = []
      for (const { hash } of push.entries) {
        // What was kept before the device was withdrawn gets the same answer again (SPEC L45).
        const position = await draft.positionOf(hash)
        verdicts.push(position === undefined ? { is: 'set-aside' } : { is: 'kept', position })
      }
      return { ok: true, verdicts, size: 0 }
    }
    const place = await placeOf(draft, device, push, senses)
    if (!place.ok) return place
    await extendBy(draft, device, push, place.known)
    const verdicts: PushVerdict[] = []
    for (const entry of push.entries) verdicts.push(await takeEntry(draft, device, entry, senses))
    return { ok: true, verdicts, size: draft.size() }
  }

/** Whether our tree, at the checkpoint's size, is the one that it was signed for. */
const holds = async (
  draft: Draft,
  checkpoint: { size: number; root: Uint8Array },
  senses: Senses,
): Promise<boolean> => {
  if (checkpoint.size > draft.size()) return false
  const signed = await draft.tx.checkpointAt(checkpoint.size)
  if (signed) return equalBytes(signed.root, checkpoint.root)
  // Never signed in this history. A size that lies within this very draft can't have been seen by anyone.
  const hashes = await draft.tx.leafHashes(checkpoint.size)
  if (hashes.length < checkpoint.size) return false
  return equalBytes(rootOf(appendAll(EMPTY_FRONTIER, hashes, senses.sha256), senses.sha256), checkpoint.root)
}

const takeEntry = async (
  draft: Draft,
  device: string,
  pushed: PushedEntry,
  senses: Reads,
): Promise<PushVerdict> => {
  const position = await draft.positionOf(pushed.hash)
  if (position !== undefined) return { is: 'kept', position }
  if (!pushed.read.ok) return refuse(draft, device, pushed.hash, pushed.read.problem)
  if (isUnread(pushed.read.value)) return { is: 'waits-for-server' }
  const entry: HashedEntry = pushed.read.value
  const holder = await draft.holderOfId(entry.entry.id)
  if (holder !== undefined) return refuse(draft, device, pushed.hash, { code: 'id-taken', at: '/id' })
  const { members } = draft.state()
  const admitted = admit(entry, members.devices.get(device)!, draft.company, members)
  if (!admitted.ok) return refuse(draft, device, pushed.hash, admitted.problem)
  const undecidable =
    entry.entry.kind === 'push.decided' ? await whyNotDecided(draft, entry.entry.body, senses) : undefined
  if (undecidable) return refuse(draft, device, pushed.hash, undecidable)
  const kept = await draft.add(entry, pushed.bytes)
  if (entry.entry.kind === 'photo.taken') await sayPhotoReceived(draft, entry.entry.body.photo)
  if (entry.entry.kind === 'push.decided') await carryOut(draft, entry.entry.body, senses)
  return { is: 'kept', position: kept }
}
