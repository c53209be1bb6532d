import type { SetAsideRow } from '../../../db/log-store/log-store.ts'
import type { ProblemCode } from '../../contract/problems.ts'
import { MOST_QUARANTINED } from '../../domain/entry/kinds/push-quarantined.ts'
import { isUnread, readEntry } from '../../domain/entry/read.ts'
import type { BodyOf } from '../../domain/entry/registry.ts'
import type { Senses } from '../../domain/world.ts'
import { admit } from './admit.ts'
import type { Draft } from './draft.ts'
import { sayPhotoReceived } from './photo-arrival.ts'
import { extendBy, type PlacedPush, placeOf } from './place.ts'
import type { ReadPush } from './read-push.ts'
import { refuse } from './refuse.ts'

/**
 * Keeps what a withdrawn device sent, outside the log and of its device's log, and says so by hash (SPEC L56). Whether the
 * push fits what came before is not asked: the sender learns nothing.
 */
export const setAsidePush = async (draft: Draft, device: string, push: ReadPush): Promise<void> => {
  const fresh = new Map<string, Uint8Array>()
  for (const { hash, bytes } of push.entries) {
    if (draft.state().quarantine.has(hash) || (await draft.positionOf(hash)) !== undefined) continue
    fresh.set(hash, bytes)
  }
  for (const [entryHash, bytes] of fresh) draft.setAside({ device, entryHash, bytes })
  if (push.entries.length > 0) {
    const { epoch, from, head, headNote: note } = push
    const hashes = push.entries.map((e) => e.hash)
    draft.addAsidePush({ device, epoch, from, hashes, size: head.size, root: head.root, note })
  }
  const hashes = [...fresh.keys()]
  for (let i = 0; i < hashes.length; i += MOST_QUARANTINED) {
    const entries = hashes.slice(i, i + MOST_QUARANTINED)
    await draft.say({ job: draft.company, kind: 'push.quarantined', body: { device, entries } })
  }
}

type Decision = BodyOf<'push.decided'>
/** `vocabulary`: the greatest `v` that is read, where the world says so. */
export type Reads = Senses & { readonly vocabulary?: number }

/** Why a decision can't be taken as it stands: it names what is not set aside, or what this server can't read yet. */
export const whyNotDecided = async (
  draft: Draft,
  { device, entries, verdict }: Decision,
  senses: Reads,
): Promise<{ code: ProblemCode; at: string } | undefined> => {
  const { quarantine } = draft.state()
  const strange = entries.findIndex((hash) => quarantine.get(hash)?.device !== device)
  if (strange >= 0) return { code: 'not-set-aside', at: `/body/entries/${strange}` }
  if (verdict === 'declined') return undefined
  for (const { entryHash, bytes } of await draft.setAsideRows(entries)) {
    const read = readEntry(bytes, senses.sha256, senses.vocabulary)
    if (read.ok && isUnread(read.value))
      return { code: 'protocol-newer', at: `/body/entries/${entries.indexOf(entryHash)}` }
  }
  return undefined
}

/** Puts what was admitted into the log, right after the decision and in the order in which the device made it. */
export const carryOut = async (
  draft: Draft,
  { device, entries, verdict }: Decision,
  senses: Reads,
): Promise<void> => {
  if (verdict === 'declined') return
  await placeSetAside(draft, device, senses)
  const order = await placesOf(draft, device)
  const rows = new Map((await draft.setAsideRows(entries)).map((row) => [row.entryHash, row]))
  const placed = [...new Set(entries)].sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0))
  for (const hash of placed) {
    const row = rows.get(hash)
    // Decided before: it is in the log, or was refused then.
    if (!row || (await draft.positionOf(hash)) !== undefined) continue
    const problem = order.has(hash) ? await admitOne(draft, row, senses) : NO_AUTHOR
    if (problem) await refuse(draft, device, hash, problem)
  }
}

const NO_AUTHOR = { code: 'author-unknown', at: '' } as const

const admitOne = async (
  draft: Draft,
  { device, bytes }: SetAsideRow,
  senses: Reads,
): Promise<{ code: ProblemCode; at: string } | undefined> => {
  const read = readEntry(bytes, senses.sha256, senses.vocabulary)
  if (!read.ok) return read.problem
  // `whyNotDecided` keeps these out.
  if (isUnread(read.value)) return { code: 'protocol-newer', at: '/v' }
  const { entry } = read.value
  if ((await draft.holderOfId(entry.id)) !== undefined) return { code: 'id-taken', at: '/id' }
  const { members } = draft.state()
  const admitted = admit(read.value, members.devices.get(device)!, draft.company, members)
  if (!admitted.ok) return admitted.problem
  // Who belongs to the company is never decided by a phone that was withdrawn, not even among forty other entries.
  if (entry.job === draft.company) return { code: 'role-may-not', at: '/job' }
  await draft.add(read.value, bytes)
  if (entry.kind === 'photo.taken') await sayPhotoReceived(draft, entry.body.photo)
  return undefined
}

/**
 * Brings the device's log up to what it pushed since it was withdrawn, as far as the pushes fit one on the other. Entries
 * that are not admitted keep their place there, as refused ones do (SPEC L22); a fork is kept as evidence.
 */
const placeSetAside = async (draft: Draft, device: string, senses: Reads): Promise<void> => {
  let open: readonly PlacedPush[] = (await draft.asidePushes(device)).map((push) => ({
    epoch: push.epoch,
    from: push.from,
    entries: push.hashes.map((hash) => ({ hash })),
    head: { size: push.size, root: push.root },
    headNote: push.note,
  }))
  for (let before = -1; open.length !== before; ) {
    before = open.length
    const gaps: PlacedPush[] = []
    for (const push of open) {
      const place = await placeOf(draft, device, push, senses)
      if (place.ok) await extendBy(draft, device, push, place.known)
      else if (place.code === 'push-gap' || place.code === 'epoch-unknown') gaps.push(push)
    }
    open = gaps
  }
}

/** Where each entry of the device stands, over all of its epochs: the earlier, the smaller. */
const placesOf = async (draft: Draft, device: string): Promise<ReadonlyMap<string, number>> => {
  const places = new Map<string, number>()
  const newest = await draft.newestEpoch(device)
  for (let epoch = 1; epoch <= newest; epoch++) {
    const log = await draft.deviceLog(device, epoch)
    for (const hash of await draft.deviceHashes(device, epoch, 0, log?.size ?? 0))
      if (!places.has(hash)) places.set(hash, places.size)
  }
  return places
}
