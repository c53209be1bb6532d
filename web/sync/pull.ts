import { MAX_PULL, pullAnswer } from '../../api/contract/messages/pull.ts'
import { type Plain, readPlain } from '../../api/domain/log/bytes.ts'
import { readBase64, readHex, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { continueThread } from '../../api/domain/log/thread.ts'
import { EMPTY_FRONTIER, type Frontier } from '../../api/domain/log/tree.ts'
import { ask, type Refused, readAnswer } from './answer.ts'
import { contradictionIn } from './contradiction.ts'
import { keepEvidence } from './evidence.ts'
import {
  getMeta,
  type LogLeaf,
  type OwnEntry,
  type PhotoKept,
  placeKey,
  putMeta,
  putOwn,
  type ThreadEndKept,
} from './kept.ts'
import type { PhoneTx } from './phone-store.ts'
import type { PhoneWorld } from './phone-world.ts'
import { waitAgain } from './send-again.ts'
import { type PullDoubt, type Verified, verifyStretch } from './verify-stretch.ts'

export type PullOutcome =
  | { readonly is: 'up-to-date' }
  | { readonly is: 'pulled'; readonly leaves: number; readonly more: boolean }
  | { readonly is: 'stopped'; readonly refused: Refused }
  /** The answer does not hold: nothing of it was taken. Where the log itself signed it, both notes are evidence. */
  | { readonly is: 'does-not-hold'; readonly code: PullDoubt }

/**
 * Takes the next stretch of the company log and believes it only if its leaves lead from the last verified root to a
 * checkpoint that the log's key signed (SPEC L48). That is stronger than a consistency proof: the phone has seen every
 * leaf. Throws `WireDown`.
 */
export const pull = async (world: PhoneWorld): Promise<PullOutcome> => {
  const start = await world.store.transact(async (tx) => ({
    identity: await getMeta(tx, 'identity'),
    log: await getMeta(tx, 'company-log'),
  }))
  const { identity } = start
  if (!identity) return { is: 'up-to-date' }
  const frontier = start.log?.frontier ?? EMPTY_FRONTIER
  const path = `/api/pull?from=${frontier.size}&limit=${MAX_PULL}`
  const answer = readAnswer(await ask(world, { method: 'GET', path }), pullAnswer)
  if (!answer.ok) return { is: 'stopped', refused: answer.refused }
  const { checkpoint } = answer.value
  await world.store.transact((tx) => putMeta(tx, 'clock-offset', answer.value.serverTime - world.now()))
  if (checkpoint === null) return { is: 'up-to-date' }
  const stretch = await verifyStretch(world, identity, frontier, answer.value, checkpoint)
  if ('doubt' in stretch) {
    const proof = stretch.signed
      ? checkpoint
      : await contradictionIn(world, identity, frontier, stretch.doubt)
    if (proof !== undefined) await keepEvidence(world, stretch.doubt, [proof])
    return { is: 'does-not-hold', code: stretch.doubt }
  }
  if (stretch.leaves.length === 0) return { is: 'up-to-date' }
  const taken = await world.store.transact((tx) => takeStretch(tx, world, frontier, stretch, checkpoint))
  if (taken !== undefined) {
    await keepEvidence(world, taken, [checkpoint])
    return { is: 'does-not-hold', code: taken }
  }
  return { is: 'pulled', leaves: stretch.leaves.length, more: answer.value.more }
}

/** Writes the stretch if it still continues what is kept; returns the doubt that keeps it from being taken. */
const takeStretch = async (
  tx: PhoneTx,
  world: PhoneWorld,
  from: Frontier,
  stretch: Verified,
  note: string,
): Promise<PullDoubt | undefined> => {
  const now = (await getMeta(tx, 'company-log'))?.frontier ?? EMPTY_FRONTIER
  // Another tab took it meanwhile.
  if (now.size !== from.size) return undefined
  const threads = new Map((await tx.list<ThreadEndKept>('threads')).map((t) => [t.tag, t]))
  const landed = new Map<string, LogLeaf>()
  const photos: SaidOfPhoto[] = []
  for (const leaf of stretch.leaves) {
    const said = saidIn(leaf.text)
    const end = nextEnd(world, threads, leaf, said?.job)
    if (!end) return 'thread-broken'
    threads.set(end.tag, end)
    landed.set(leaf.hash, leaf)
    if (said?.photo) photos.push(said.photo)
  }
  const own = await tx.list<OwnEntry>('own')
  const missing = own.filter(
    ({ hash, state }) =>
      state.is === 'kept' && !state.landed && state.position < stretch.frontier.size && !landed.has(hash),
  )
  if (missing.length > 0) {
    await waitAgain(tx, world, missing)
    return 'own-entry-missing'
  }
  for (const entry of own) {
    const leaf = landed.get(entry.hash)
    if (leaf) await putOwn(tx, { ...entry, state: { is: 'kept', position: leaf.position, landed: true } })
  }
  for (const said of photos) await markPhoto(tx, said)
  for (const end of threads.values()) await tx.put('threads', end.tag, end)
  for (const leaf of stretch.leaves) await tx.put('log', placeKey(leaf.position), leaf)
  await putMeta(tx, 'company-log', { frontier: stretch.frontier, note })
  return undefined
}

/** The thread's new end, or undefined where the leaf does not continue it or belongs to another job (SPEC L15, L16). */
const nextEnd = (
  world: PhoneWorld,
  threads: ReadonlyMap<string, ThreadEndKept>,
  leaf: LogLeaf,
  job: string | undefined,
): ThreadEndKept | undefined => {
  const bytes = readBase64(leaf.leaf)!
  const tag = toHex(bytes.slice(9, 25))
  const kept = threads.get(tag)
  const end = kept && { tag: readHex(kept.tag)!, count: kept.count, last: readHex(kept.last)! }
  const next = continueThread(end, bytes, world.sha256)
  if (!next.ok) return undefined
  const others = kept ? [] : [...threads.values()]
  const oneJob = job === undefined || kept?.job === undefined || kept.job === job
  if (!oneJob || (job !== undefined && others.some((t) => t.job === job))) return undefined
  return { tag, count: next.value.end.count, last: toHex(next.value.end.last), job: kept?.job ?? job }
}

type SaidOfPhoto = {
  readonly hash: string
  readonly mark: { readonly named: true } | { readonly arrived: true }
}

/**
 * What the log's copy is kept by: the thread that an entry names (one of a later release names it too, SPEC L9), and
 * whether it names a photo, or says that one arrived.
 */
const saidIn = (text: string | null): { job?: string; photo?: SaidOfPhoto } | undefined => {
  const plain = text === null ? undefined : readPlain(toUtf8(text))
  if (!plain?.ok || !isRecord(plain.value)) return undefined
  const { job, kind, body } = plain.value
  const hash = isRecord(body) ? body.photo : undefined
  const mark = kind === 'photo.taken' ? { named: true as const } : { arrived: true as const }
  const ofPhoto = typeof hash === 'string' && (kind === 'photo.taken' || kind === 'photo.received')
  return {
    ...(typeof job === 'string' ? { job } : {}),
    ...(ofPhoto ? { photo: { hash, mark } } : {}),
  }
}

const isRecord = (value: Plain | undefined): value is { readonly [name: string]: Plain } =>
  typeof value === 'object' && !Array.isArray(value)

/** A photo that this phone keeps is sent again where the log goes on without saying that it arrived. */
const markPhoto = async (tx: PhoneTx, { hash, mark }: SaidOfPhoto): Promise<void> => {
  const photo = await tx.get<PhotoKept>('photos', hash)
  if (photo) await tx.put('photos', hash, { ...photo, ...mark })
}
