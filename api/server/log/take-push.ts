import type { PushVerdict } from '../../contract/messages/push.ts'
import type { ProblemCode } from '../../contract/problems.ts'
import type { HashedEntry } from '../../domain/entry/read.ts'
import { isUnread } from '../../domain/entry/read.ts'
import { equalBytes, readHex } from '../../domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, type Frontier, rootOf } from '../../domain/log/tree.ts'
import type { Senses } from '../../domain/world.ts'
import { admit } from './admit.ts'
import type { Draft } from './draft.ts'
import { sayPhotoReceived } from './photo-arrival.ts'
import type { PushedEntry, ReadPush } from './read-push.ts'

export type PushTaken =
  | { readonly ok: true; readonly verdicts: readonly PushVerdict[]; readonly size: number }
  | { readonly ok: false; readonly code: ProblemCode; readonly next?: number }

/**
 * One push, within the sequencer's transaction: whether it fits the device's log, then each entry by itself, in order.
 * A refused entry keeps its place in the device's log and is noted by its hash; those after it go on.
 */
export const takePush =
  (device: string, push: ReadPush, senses: Senses) =>
  async (draft: Draft): Promise<PushTaken> => {
    if (draft.isStopped()) return { ok: false, code: 'log-stopped' }
    const from = draft.state().members.devices.get(device)
    if (!from) return { ok: false, code: 'not-signed-in' }
    if (push.seen && !(await holds(draft, push.seen.checkpoint, senses))) {
      // Our own key signed a history that we do not have: we were restored from a backup, or are one of two.
      draft.stop('log-contradicted', push.seen.note)
      return { ok: false, code: 'log-contradicted' }
    }
    if (from.withdrawn) return setAside(draft, device, push)
    const place = await placeOf(draft, device, push, senses)
    if (!place.ok) return place
    const hashes = push.entries.map((e) => e.hash)
    await draft.extendDevice(device, push.epoch, hashes.slice(place.known))
    const { size, root } = push.head
    if (place.known < push.entries.length || push.entries.length === 0)
      draft.addHead({ device, epoch: push.epoch, size, root, note: push.headNote, disputed: false })
    const verdicts: PushVerdict[] = []
    for (const entry of push.entries) verdicts.push(await takeEntry(draft, device, entry))
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

type Place =
  /** How many of the pushed entries the device's log has already. */
  { readonly ok: true; readonly known: number } | Extract<PushTaken, { ok: false }>

/** Where the push continues the device's log (SPEC L47). */
const placeOf = async (draft: Draft, device: string, push: ReadPush, senses: Senses): Promise<Place> => {
  const newest = await draft.newestEpoch(device)
  if (push.epoch < newest) return { ok: false, code: 'device-forked', next: newest + 1 }
  if (push.epoch > newest + 1) return { ok: false, code: 'epoch-unknown', next: newest + 1 }
  const own = (await draft.deviceLog(device, push.epoch)) ?? EMPTY_FRONTIER
  if (push.from > own.size) return { ok: false, code: 'push-gap', next: own.size }
  const hashes = push.entries.map((e) => e.hash)
  const before = push.from === own.size ? own : await frontierAt(draft, device, push.epoch, push.from, senses)
  const end = appendAll(
    before,
    hashes.map((h) => readHex(h)!),
    senses.sha256,
  )
  // Altered on its way, or signed over another past: no evidence of anything yet. A phone sends all again from the start.
  if (!equalBytes(rootOf(end, senses.sha256), push.head.root)) return { ok: false, code: 'head-differs' }
  const known = Math.min(own.size - push.from, hashes.length)
  const stored = await draft.deviceHashes(device, push.epoch, push.from, push.from + known)
  // The device signed these entries at places where it had signed others before.
  if (stored.some((hash, i) => hash !== hashes[i])) return fork(draft, device, push, newest)
  return { ok: true, known }
}

const fork = (draft: Draft, device: string, push: ReadPush, newest: number): Place => {
  const { size, root } = push.head
  draft.addHead({ device, epoch: push.epoch, size, root, note: push.headNote, disputed: true })
  return { ok: false, code: 'device-forked', next: newest + 1 }
}

const frontierAt = async (
  draft: Draft,
  device: string,
  epoch: number,
  size: number,
  senses: Senses,
): Promise<Frontier> => {
  const hashes = await draft.deviceHashes(device, epoch, 0, size)
  return appendAll(
    EMPTY_FRONTIER,
    hashes.map((h) => readHex(h)!),
    senses.sha256,
  )
}

const setAside = (draft: Draft, device: string, push: ReadPush): PushTaken => {
  for (const { hash, bytes } of push.entries) draft.setAside({ device, entryHash: hash, bytes })
  return { ok: true, verdicts: push.entries.map(() => ({ is: 'set-aside' })), size: 0 }
}

const takeEntry = async (draft: Draft, device: string, pushed: PushedEntry): Promise<PushVerdict> => {
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
  const kept = await draft.add(entry, pushed.bytes)
  if (entry.entry.kind === 'photo.taken') await sayPhotoReceived(draft, entry.entry.body.photo)
  return { is: 'kept', position: kept }
}

/** Notes the refusal once, by hash and code: the bytes stay with the phone. */
const refuse = async (
  draft: Draft,
  device: string,
  hash: string,
  problem: { readonly code: ProblemCode; readonly at: string },
): Promise<PushVerdict> => {
  if (!draft.state().refused.has(hash))
    await draft.say({ job: draft.company, kind: 'entry.refused', body: { hash, device, code: problem.code } })
  return { is: 'refused', code: problem.code, at: problem.at }
}
