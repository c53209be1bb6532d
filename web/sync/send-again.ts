import { readHex } from '../../api/domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER } from '../../api/domain/log/tree.ts'
import { type DeviceLog, getMeta, getOwn, type OwnEntry, putMeta, putOwn } from './kept.ts'
import type { PhoneTx } from './phone-store.ts'
import type { PhoneWorld } from './phone-world.ts'

/** The server holds less of this device's log than it once answered for (it was restored): send it all again. */
export const goBackTo = async (
  tx: PhoneTx,
  world: PhoneWorld,
  log: DeviceLog,
  size: number,
): Promise<void> => {
  const now = await getMeta(tx, 'device-log')
  if (!now || now.epoch !== log.epoch) return
  const before = await getOwn(tx, log.epoch, 0, size)
  const answered = appendAll(
    EMPTY_FRONTIER,
    before.map((e) => readHex(e.hash)!),
    world.sha256,
  )
  await putMeta(tx, 'device-log', { ...now, answered })
}

/** How long an entry that an older server could not read waits before it is sent again. Our choice. */
const WAITING_AGAIN_MS = 10 * 60 * 1000

/**
 * Entries that an older server could not read yet are sent again from the first of them on; not at every sync, since all
 * that came after them goes along.
 */
export const sendWaitingAgain = (world: PhoneWorld): Promise<void> =>
  world.store.transact(async (tx) => {
    const log = await getMeta(tx, 'device-log')
    if (!log) return
    const before = await getMeta(tx, 'waiting-sent')
    // A clock that was set back must not keep them waiting.
    if (before !== undefined && Math.abs(world.now() - before) < WAITING_AGAIN_MS) return
    const all = await getOwn(tx, log.epoch, 0, log.answered.size)
    const first = all.find((own) => own.state.is === 'waits-for-server')
    if (!first) return
    await putMeta(tx, 'waiting-sent', world.now())
    await goBackTo(tx, world, log, first.index)
  })

/**
 * Entries that the server has acknowledged at places which its log, read to its end, does not reach are sent again: it
 * was put back to a time before it had them. Sending again what it does have changes nothing. True where there are any.
 */
export const sendUnlandedAgain = (world: PhoneWorld): Promise<boolean> =>
  world.store.transact(async (tx) => {
    const size = (await getMeta(tx, 'company-log'))?.frontier.size ?? 0
    const lost = await unlanded(tx, (position) => position >= size)
    return goBackToFirst(tx, world, lost)
  })

/** Entries that the log shows itself not to have at the places named are waiting again. */
export const waitAgain = async (
  tx: PhoneTx,
  world: PhoneWorld,
  missing: readonly OwnEntry[],
): Promise<void> => {
  for (const own of missing) await putOwn(tx, { ...own, state: { is: 'waiting' } })
  await goBackToFirst(tx, world, missing)
}

const unlanded = async (tx: PhoneTx, where: (position: number) => boolean): Promise<OwnEntry[]> => {
  const all = await tx.list<OwnEntry>('own')
  return all.filter(({ state }) => state.is === 'kept' && !state.landed && where(state.position))
}

const goBackToFirst = async (
  tx: PhoneTx,
  world: PhoneWorld,
  entries: readonly OwnEntry[],
): Promise<boolean> => {
  const log = await getMeta(tx, 'device-log')
  // What was acknowledged in an epoch before this one can't be signed for again.
  const first = entries.find((own) => own.epoch === log?.epoch)
  if (!log || !first || first.index >= log.answered.size) return false
  await goBackTo(tx, world, log, first.index)
  return true
}
