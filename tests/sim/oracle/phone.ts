import { VOCABULARY } from '../../../api/domain/entry/registry.ts'
import { equalBytes, readHex, toBase64, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../../api/domain/log/tree.ts'
import { sha256 } from '../../../api/server/senses.ts'
import {
  type Evidence,
  getMeta,
  type LogLeaf,
  type OwnEntry,
  type PhotoKept,
} from '../../../web/sync/kept.ts'
import type { SimPhone } from '../sim-phone.ts'
import type { Simulated } from '../simulate.ts'
import type { Say } from './oracle.ts'
import { bodyOf, type ServerLog } from './server-log.ts'

type Expected = { readonly inStep: boolean; readonly mayHaveEvidence: boolean }
const HISTORIES = ['server-restored', 'split-view']

type Held = {
  readonly device: string | undefined
  readonly own: readonly OwnEntry[]
  readonly log: readonly LogLeaf[]
  readonly photos: readonly PhotoKept[]
  readonly evidence: readonly Evidence[]
}

/** All that one phone was promised. */
export const checkPhone = async (
  run: Simulated,
  phone: SimPhone,
  server: ServerLog,
  expected: Expected,
  say: Say,
): Promise<void> => {
  const tell: Say = (sentence) => say(`${phone.name}: ${sentence}`)
  const held: Held = await phone.store.transact(async (tx) => ({
    device: (await getMeta(tx, 'identity'))?.device,
    own: await tx.list<OwnEntry>('own'),
    log: await tx.list<LogLeaf>('log'),
    photos: await tx.list<PhotoKept>('photos'),
    evidence: (await getMeta(tx, 'evidence')) ?? [],
  }))
  const isPast = run.past.includes(phone)
  checkSaid(phone, held, server, tell)
  if (!isPast && !phone.withdrawn && held.evidence.length > 0 && !expected.mayHaveEvidence)
    tell('it has evidence against the log, though nobody lied')
  const notes = held.evidence.map((one) => JSON.stringify([one.code, one.notes]))
  if (new Set(notes).size !== notes.length) tell('it keeps one evidence twice')
  if (!expected.inStep) return
  if (run.stopped.has(phone.name) && !phone.withdrawn) tell('it was stopped')
  const forgotten = expected.mayHaveEvidence ? await forgottenBy(run, held) : new Set<string>()
  checkKept(held, server, forgotten, tell)
  if (isPast) return
  checkOrder(held, run.plan.updatedAt !== undefined, tell)
  if (!phone.withdrawn) {
    checkSettled(held, server, tell)
    checkCopy(held, server, tell)
    await checkPhotos(run, phone, held, server, tell)
  }
  await checkDeviceLog(run, phone, held, forgotten, tell)
}

/**
 * What a server that was put back has forgotten to have refused, at the end of a device's log: the device comes to tell
 * it with the next entry that it logs.
 */
const forgottenBy = async (run: Simulated, { own, device }: Held): Promise<Set<string>> => {
  const stored = await run.server.stores.log.deviceLeaves(run.site.company, device!, 1, 100_000)
  const tail = own.slice(stored.length)
  // Or the one in its midst that an older server had left waiting when the backup was made.
  const late = run.plan.updatedAt === undefined ? [] : own.filter(({ state }) => state.is === 'refused')
  const isSmall = tail.every(({ state }) => state.is === 'refused' || state.is === 'waits-for-server')
  return new Set([...late, ...(isSmall ? tail : [])].map((entry) => entry.hash))
}

/** What was called kept is there: on the phone, or in the log where the phone itself was lost or put back. */
const checkSaid = (phone: SimPhone, { own }: Held, server: ServerLog, tell: Say): void => {
  const mine = new Set(own.map((entry) => entry.hash))
  for (const hash of phone.said) {
    const elsewhere = phone.doubled && (server.byHash.has(hash) || server.refused.has(hash))
    if (!mine.has(hash) && !phone.gone.has(hash) && !elsewhere) tell(`it called ${hash} kept and lost it`)
  }
  if (mine.size !== own.length && !phone.doubled) tell('it keeps an entry twice')
}

/** What was acknowledged is in the log, where it was said to be, byte for byte. */
const checkKept = (
  { own }: Held,
  { byHash, refused }: ServerLog,
  forgotten: ReadonlySet<string>,
  tell: Say,
): void => {
  for (const { hash, text, state } of own) {
    const leaf = byHash.get(hash)
    if (state.is === 'kept' && !leaf) tell('an acknowledged entry is not in the log')
    else if (state.is === 'kept' && leaf!.position !== state.position)
      tell('an entry moved after it was acknowledged')
    else if (state.is === 'refused' && leaf) tell(`a refused entry is in the log: ${state.code}`)
    else if (state.is === 'refused' && !refused.has(hash) && !forgotten.has(hash))
      tell('a refusal was not noted in the log')
    else if (state.is === 'set-aside' && leaf) tell('an entry is set aside and in the log')
    if (leaf && (!leaf.bytes || !equalBytes(leaf.bytes, toUtf8(text)))) tell('an entry was altered')
  }
}

/** Nothing is left waiting; what is of a later release than the server's waits, and nothing else does. */
const checkSettled = ({ own }: Held, { byHash }: ServerLog, tell: Say): void => {
  for (const { state, text, hash } of own) {
    const newer = text.includes(`"v":${VOCABULARY + 1}`)
    if (state.is === 'waits-for-server' ? !newer : newer)
      tell(`an entry of v ${newer ? 'newer' : 'known'} ${state.is}`)
    else if (state.is === 'kept' && !state.landed) tell(`an entry never landed: ${byHash.has(hash)}`)
    else if (state.is === 'waiting' || state.is === 'set-aside') tell(`an entry is still ${state.is}`)
  }
}

/**
 * A device's entries stand in the log in the order in which it made them; but for those that a server of an older release
 * could not read, which are taken once it was updated.
 */
const checkOrder = ({ own }: Held, wasUpdated: boolean, tell: Say): void => {
  const places = own.flatMap(({ state, text }) =>
    state.is === 'kept' && !(wasUpdated && text.endsWith('"v":2}')) ? [state.position] : [],
  )
  if (places.some((place, i) => i > 0 && place <= places[i - 1]!)) tell('its entries changed their order')
}

const checkCopy = ({ log }: Held, { leaves }: ServerLog, tell: Say): void => {
  if (log.length !== leaves.length) tell(`it holds ${log.length} of ${leaves.length} leaves`)
  for (const [i, leaf] of log.entries()) {
    const row = leaves[i]
    const same =
      row &&
      leaf.position === row.position &&
      leaf.leaf === toBase64(row.leaf) &&
      leaf.hash === row.entryHash &&
      leaf.receivedAt === row.receivedAt &&
      leaf.text !== null &&
      equalBytes(toUtf8(leaf.text), row.bytes!)
    if (!same) tell(`its copy of the log differs from the server's at ${i}`)
  }
}

/** Each photo that was called kept is on the server, byte for byte, and every job that names it says that it arrived. */
const checkPhotos = async (
  run: Simulated,
  phone: SimPhone,
  { photos }: Held,
  { leaves }: ServerLog,
  tell: Say,
): Promise<void> => {
  const named = new Map<string, Set<string>>()
  const arrived = new Set<string>()
  for (const leaf of leaves) {
    if (leaf.kind !== 'photo.taken' && leaf.kind !== 'photo.received') continue
    const photo = bodyOf(leaf).photo!
    if (leaf.kind === 'photo.received') arrived.add(`${leaf.job} ${photo}`)
    else named.set(photo, (named.get(photo) ?? new Set()).add(leaf.job))
  }
  for (const [hash, bytes] of phone.photos) {
    const kept = await run.photoBytes(hash)
    const blob = await run.server.stores.log.blob(run.site.company, hash)
    if (!kept) tell('a photo that it called kept is not on the server')
    else if (!equalBytes(kept, bytes) || toHex(sha256(kept)) !== hash) tell('a photo was altered')
    // Another server, or one that was put back, hears of it again when an entry names the photo.
    const mayBeForgotten = HISTORIES.includes(run.plan.trouble) && !named.has(hash)
    if (!blob && !mayBeForgotten) tell('the log does not know a photo that arrived')
    for (const job of named.get(hash) ?? [])
      if (!arrived.has(`${job} ${hash}`)) tell('a job names a photo, and never says that it arrived')
  }
  if (photos.some((photo) => !photo.sent)) tell('a photo is still to be sent')
}

/** The server's picture of the device's log is the device's own; every head lies on it, but for those of a copy. */
const checkDeviceLog = async (
  run: Simulated,
  phone: SimPhone,
  { own, device }: Held,
  forgotten: ReadonlySet<string>,
  tell: Say,
): Promise<void> => {
  const { log } = run.server.stores
  const { company } = run.site
  const heads = (await log.heads(company)).filter((head) => head.device === device)
  if (!phone.doubled && heads.some((head) => head.disputed))
    tell('a head is disputed, though nobody copied it')
  if (!phone.doubled && own.some((entry) => entry.epoch !== 1))
    tell('it went into a new epoch, though nobody copied it')
  if (heads.some((head) => head.epoch > 1) && !heads.some((head) => head.disputed))
    tell('it went into a new epoch, and the head that contradicts the first was not kept')
  const stored = new Map<number, string[]>()
  for (const epoch of new Set([...own.map((e) => e.epoch), ...heads.map((h) => h.epoch)]))
    stored.set(epoch, await log.deviceLeaves(company, device!, epoch, 100_000))
  if (!phone.doubled && !phone.withdrawn && !sameLog(stored.get(1) ?? [], own, forgotten))
    tell('the server has another device log')
  for (const { epoch, index, hash, state } of own)
    if (state.is === 'kept' && !phone.doubled && stored.get(epoch)![index] !== hash)
      tell('an acknowledged entry has another place in its device’s log')
  for (const head of heads) {
    const hashes = stored
      .get(head.epoch)!
      .slice(0, head.size)
      .map((h) => readHex(h)!)
    const root = rootOf(appendAll(EMPTY_FRONTIER, hashes, sha256), sha256)
    if (!head.disputed && (hashes.length !== head.size || !equalBytes(root, head.root)))
      tell('a stored head is off its device’s log')
  }
}

const sameLog = (
  stored: readonly string[],
  own: readonly OwnEntry[],
  forgotten: ReadonlySet<string>,
): boolean => {
  const hashes = own.map((entry) => entry.hash)
  const known = hashes.filter((hash, i) => i < stored.length || !forgotten.has(hash))
  return stored.join() === known.join()
}
