import type { By } from '../../api/domain/entry/envelope.ts'
import { type Happening, makeEntry } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { readHex, readUtf8 } from '../../api/domain/log/encoding.ts'
import { append, EMPTY_FRONTIER } from '../../api/domain/log/tree.ts'
import type { DeviceLog } from './kept.ts'
import { getMeta, putMeta, putOwn } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'

export const FIRST_DEVICE_LOG: DeviceLog = { epoch: 1, whole: EMPTY_FRONTIER, answered: EMPTY_FRONTIER }

/**
 * Makes an entry and keeps it on this phone, at the end of the device's log. Returns its hash once the store has it for
 * good; throws where the store refuses, and then nothing was kept. `by` names who was picked on a shared phone; any other
 * phone is its own person's.
 */
export const logEntry = async <K extends Kind>(
  world: PhoneWorld,
  happening: Happening<K>,
  by?: By,
): Promise<string> => {
  const moment = { now: world.now(), recordedAt: world.localTime(), mono: world.mono() }
  return world.store.transact(async (tx) => {
    const identity = await getMeta(tx, 'identity')
    if (!identity) throw new Error('this device has not joined a company')
    if (identity.use === 'shared' && !by) throw new Error('nobody was picked on this shared phone')
    const maker = by ?? { person: identity.person, known: 'own-device' }
    const bytes = makeEntry(
      happening,
      { device: identity.device, by: maker, boot: world.boot },
      moment,
      world.random,
    )
    const hash = hashEntry(bytes, world.sha256)
    const log = (await getMeta(tx, 'device-log')) ?? FIRST_DEVICE_LOG
    await putOwn(tx, {
      epoch: log.epoch,
      index: log.whole.size,
      hash,
      job: happening.job,
      text: readUtf8(bytes)!,
      state: { is: 'waiting' },
    })
    await putMeta(tx, 'device-log', { ...log, whole: append(log.whole, readHex(hash)!, world.sha256) })
    return hash
  })
}
