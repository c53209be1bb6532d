import {
  MAX_PUSH_BYTES,
  MAX_PUSH_ENTRIES,
  type PushVerdict,
  pushAnswer,
} from '../../api/contract/messages/push.ts'
import { PROTOCOL_VERSION } from '../../api/contract/version.ts'
import { deviceOrigin, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex } from '../../api/domain/log/encoding.ts'
import { signNote } from '../../api/domain/log/note.ts'
import { appendAll, EMPTY_FRONTIER, type Frontier, rootOf } from '../../api/domain/log/tree.ts'
import { ask, type Refused, readAnswer } from './answer.ts'
import { keepEvidence } from './evidence.ts'
import {
  type DeviceLog,
  getMeta,
  getOwn,
  type Identity,
  type OwnEntry,
  type OwnState,
  ownKey,
  putMeta,
  putOwn,
} from './kept.ts'
import { FIRST_DEVICE_LOG } from './log-entry.ts'
import type { PhoneTx } from './phone-store.ts'
import type { PhoneWorld } from './phone-world.ts'
import { goBackTo } from './send-again.ts'
import { jsonBody } from './sign-in.ts'

export type PushOutcome =
  | { readonly is: 'nothing-to-push' }
  | { readonly is: 'pushed'; readonly more: boolean }
  /** The phone's view of its own log was mended (a gap, a fork): push again. */
  | { readonly is: 'again' }
  | { readonly is: 'stopped'; readonly refused: Refused }

/** Sends the next stretch of this device's log, with a head signed for just that size. Throws `WireDown`. */
export const push = (world: PhoneWorld): Promise<PushOutcome> => send(world, false)

/**
 * Shows the server the checkpoint that this phone has verified, also where there is nothing to push: a server that was
 * put back from a backup, or shows another history, then hears of it from the first phone that knows better.
 */
export const showSeen = (world: PhoneWorld): Promise<PushOutcome> => send(world, true)

const send = async (world: PhoneWorld, evenNothing: boolean): Promise<PushOutcome> => {
  const stretch = await world.store.transact((tx) => nextStretch(tx, world, evenNothing))
  if (!stretch) return { is: 'nothing-to-push' }
  const { identity, log, entries, from, end } = stretch
  const origin = deviceOrigin(identity.origin, identity.device, log.epoch)
  const publicName = { name: origin, publicKey: await world.publicKey() }
  const text = writeHead({
    origin,
    size: end.size,
    root: rootOf(end, world.sha256),
    seen: { size: stretch.seen.size, root: rootOf(stretch.seen, world.sha256) },
    clock: { at: world.localTime(), boot: world.boot, mono: Math.floor(world.mono()) },
  })
  const head = await signNote(text, publicName, world.sign, world.sha256)
  const request = {
    protocol: PROTOCOL_VERSION,
    epoch: log.epoch,
    from,
    entries: entries.map((e) => e.text),
    head,
    seen: stretch.seenNote,
  }
  const answer = readAnswer(
    await ask(world, { method: 'POST', path: '/api/push', ...jsonBody(request) }),
    pushAnswer,
  )
  if (!answer.ok) return takeRefusal(world, log, answer.refused)
  const { verdicts, serverTime } = answer.value
  if (verdicts.length !== entries.length)
    return { is: 'stopped', refused: { code: 'unavailable', at: '', next: undefined } }
  return world.store.transact(async (tx) => {
    for (const [i, own] of entries.entries()) await takeVerdict(tx, own, verdicts[i]!)
    const now = (await getMeta(tx, 'device-log')) ?? FIRST_DEVICE_LOG
    // Another tab may have pushed further, or the log may have gone on in a new epoch, while this answer travelled.
    if (now.epoch === log.epoch && now.answered.size < end.size)
      await putMeta(tx, 'device-log', { ...now, answered: end })
    await putMeta(tx, 'clock-offset', serverTime - world.now())
    return { is: 'pushed', more: now.epoch !== log.epoch || end.size < now.whole.size }
  })
}

type Stretch = {
  readonly identity: Identity
  readonly log: DeviceLog
  readonly entries: readonly OwnEntry[]
  readonly from: number
  readonly end: Frontier
  readonly seen: Frontier
  readonly seenNote: string
}

const nextStretch = async (
  tx: PhoneTx,
  world: PhoneWorld,
  evenNothing: boolean,
): Promise<Stretch | undefined> => {
  const identity = await getMeta(tx, 'identity')
  const kept = await getMeta(tx, 'device-log')
  const log = kept ?? (evenNothing ? FIRST_DEVICE_LOG : undefined)
  if (!identity || !log || (log.answered.size >= log.whole.size && !evenNothing)) return undefined
  const from = log.answered.size
  const all = await getOwn(tx, log.epoch, from, Math.min(log.whole.size, from + MAX_PUSH_ENTRIES))
  const entries = withinBytes(all)
  const end = appendAll(
    log.answered,
    entries.map((e) => readHex(e.hash)!),
    world.sha256,
  )
  const verified = await getMeta(tx, 'company-log')
  const seen = verified?.frontier ?? EMPTY_FRONTIER
  return { identity, log, entries, from, end, seen, seenNote: verified?.note ?? '' }
}

/** As many as fit in one push even if each character took its longest spelling; one always fits. */
const withinBytes = (entries: readonly OwnEntry[]): OwnEntry[] => {
  let bytes = 0
  return entries.filter((e, i) => {
    bytes += e.text.length * 4
    return i === 0 || bytes < MAX_PUSH_BYTES / 2
  })
}

const takeVerdict = async (tx: PhoneTx, sent: OwnEntry, verdict: PushVerdict): Promise<void> => {
  const [own] = await getOwn(tx, sent.epoch, sent.index, sent.index + 1)
  if (!own || own.hash !== sent.hash) return
  // What was acknowledged once stays so, and what has landed in the verified log outranks any later answer.
  if (own.state.is === 'kept' && (own.state.landed || verdict.is !== 'kept')) return
  await putOwn(tx, { ...own, state: stateOf(verdict) })
}

const stateOf = (verdict: PushVerdict): OwnState => {
  switch (verdict.is) {
    case 'kept':
      return { is: 'kept', position: verdict.position, landed: false }
    case 'refused':
      return { is: 'refused', code: verdict.code, at: verdict.at }
    default:
      return { is: verdict.is }
  }
}

const takeRefusal = async (world: PhoneWorld, log: DeviceLog, refused: Refused): Promise<PushOutcome> => {
  if (refused.code === 'push-gap' && refused.next !== undefined && refused.next < log.answered.size) {
    await world.store.transact((tx) => goBackTo(tx, world, log, refused.next!))
    return { is: 'again' }
  }
  // What the server holds of this device may be another history than ours: all of it again shows where they part.
  if (refused.code === 'head-differs' && log.answered.size > 0) {
    await world.store.transact((tx) => goBackTo(tx, world, log, 0))
    return { is: 'again' }
  }
  const forked = refused.code === 'device-forked' || refused.code === 'epoch-unknown'
  if (forked && refused.next !== undefined && refused.next > log.epoch) {
    await world.store.transact((tx) => goOnInEpoch(tx, world, log, refused.next!))
    return { is: 'again' }
  }
  if (refused.code === 'log-contradicted' || refused.code === 'log-stopped')
    await keepEvidence(world, refused.code)
  return { is: 'stopped', refused }
}

/**
 * This phone and another (a copy of it, or itself before a restore) have signed two histories: it goes on in a new
 * epoch, in which all that the server has not answered for is logged again, byte for byte.
 */
const goOnInEpoch = async (tx: PhoneTx, world: PhoneWorld, log: DeviceLog, epoch: number): Promise<void> => {
  const now = await getMeta(tx, 'device-log')
  if (!now || now.epoch !== log.epoch) return
  const all = await getOwn(tx, log.epoch, 0, now.whole.size)
  const open = all.filter((own) => own.state.is !== 'kept' && own.state.is !== 'refused')
  for (const [index, own] of open.entries()) {
    await tx.delete('own', ownKey(own.epoch, own.index))
    await putOwn(tx, { ...own, epoch, index, state: { is: 'waiting' } })
  }
  const whole = appendAll(
    EMPTY_FRONTIER,
    open.map((own) => readHex(own.hash)!),
    world.sha256,
  )
  await putMeta(tx, 'device-log', { epoch, whole, answered: EMPTY_FRONTIER })
}
