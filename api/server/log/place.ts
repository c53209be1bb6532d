import type { ProblemCode } from '../../contract/problems.ts'
import { equalBytes, readHex } from '../../domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, type Frontier, rootOf } from '../../domain/log/tree.ts'
import type { Senses } from '../../domain/world.ts'
import type { Draft } from './draft.ts'

/** As much of a push as decides where it belongs. */
export type PlacedPush = {
  readonly epoch: number
  readonly from: number
  readonly entries: readonly { readonly hash: string }[]
  readonly head: { readonly size: number; readonly root: Uint8Array }
  readonly headNote: string
}

/** A push that changes nothing, and why. */
export type NotTaken = { readonly ok: false; readonly code: ProblemCode; readonly next?: number }

export type Place =
  /** How many of the pushed entries the device's log has already. */
  { readonly ok: true; readonly known: number } | NotTaken

/** Where the push continues the device's log (SPEC L47). */
export const placeOf = async (
  draft: Draft,
  device: string,
  push: PlacedPush,
  senses: Senses,
): Promise<Place> => {
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

const fork = (draft: Draft, device: string, push: PlacedPush, newest: number): Place => {
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

/** Takes a push that fits into its device's log: what of it is new, and its head where it says anything new. */
export const extendBy = async (
  draft: Draft,
  device: string,
  push: PlacedPush,
  known: number,
): Promise<void> => {
  const hashes = push.entries.map((e) => e.hash)
  await draft.extendDevice(device, push.epoch, hashes.slice(known))
  const { size, root } = push.head
  if (known < hashes.length || hashes.length === 0)
    draft.addHead({ device, epoch: push.epoch, size, root, note: push.headNote, disputed: false })
}
