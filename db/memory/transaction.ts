import { isUuid } from '../log-store/check-append.ts'
import type { AsidePushRow, LogTx } from '../log-store/log-store.ts'
import {
  copyAsidePush,
  copyBytes,
  copyCheckpoint,
  copyCompany,
  copyDeviceLog,
  copyLeaf,
  copySetAside,
  copyThread,
} from './copies.ts'
import { logKey, type Rows } from './rows.ts'
import { writeAppend } from './write.ts'

/** The steps of one transaction, which reads the draft over the base. */
export const transactionSteps = (
  id: string,
  base: Rows,
  draft: Rows,
  originTaken: (origin: string) => boolean,
): LogTx => {
  const one = <K, V>(table: (rows: Rows) => ReadonlyMap<K, V>, key: K): V | undefined =>
    table(draft).get(key) ?? table(base).get(key)
  const many = <K, V>(table: (rows: Rows) => ReadonlyMap<K, V[]>, key: K): V[] => [
    ...(table(base).get(key) ?? []),
    ...(table(draft).get(key) ?? []),
  ]
  // Not `many(…).slice(…)`: that would copy a whole log for each push.
  const range = <K, V>(table: (rows: Rows) => ReadonlyMap<K, V[]>, key: K, from: number, to: number): V[] => {
    const kept = table(base).get(key) ?? []
    const added = table(draft).get(key) ?? []
    const past = (index: number) => Math.max(0, index - kept.length)
    return [...kept.slice(from, to), ...added.slice(past(from), past(to))]
  }
  const each = <K, V>(keys: readonly K[], table: (rows: Rows) => ReadonlyMap<K, V>): V[] =>
    [...new Set(keys)].flatMap((key) => one(table, key) ?? [])
  const company = () => draft.company ?? base.company

  return {
    company: async () => {
      const row = company()
      return row && copyCompany(row)
    },
    found: async ({ origin }) => {
      if (!isUuid(id)) throw new Error('found: the company is no UUID')
      if (company()) throw new Error('found: the company is there already')
      if (originTaken(origin)) throw new Error('found: the origin is taken')
      draft.company = { company: id, origin, frontier: { size: 0, peaks: [] }, stopped: undefined }
    },
    threads: async (jobs) => each(jobs, (rows) => rows.one.threads).map(copyThread),
    threadLeaves: async (job, afterCount) =>
      many((rows) => rows.many.byJob, job)
        .filter((leaf) => leaf.count > afterCount)
        .map(copyLeaf),
    byIds: async (ids) =>
      each(ids, (rows) => rows.one.byId).map(({ id, entryHash, position }) => ({ id, entryHash, position })),
    byHashes: async (hashes) =>
      each(hashes, (rows) => rows.one.byHash).map(({ entryHash, position, job }) => ({
        entryHash,
        position,
        job,
      })),
    deviceLogs: async (device) =>
      many((rows) => rows.many.epochs, device)
        .sort((a, b) => a - b)
        .map((epoch) => copyDeviceLog(one((rows) => rows.one.deviceLogs, logKey(device, epoch))!)),
    deviceLeaves: async (device, epoch, from, limit) =>
      range((rows) => rows.many.deviceLeaves, logKey(device, epoch), from, from + limit),
    checkpointAt: async (size) => {
      const row = one((rows) => rows.one.checkpoints, size)
      return row && copyCheckpoint(row)
    },
    leafHashes: async (size) =>
      range((rows) => rows.many.leaves, '', 0, size).map((leaf) => copyBytes(leaf.leafHash)),
    setAside: async (hashes) => each(hashes, (rows) => rows.one.setAside).map(copySetAside),
    asidePushes: async (device) =>
      many((rows) => rows.many.asidePushes, device)
        .sort(byReceipt)
        .map(copyAsidePush),
    blobs: async (hashes) => each(hashes, (rows) => rows.one.blobs).map((row) => ({ ...row })),
    mentions: async (photos) =>
      [...new Set(photos)]
        .flatMap((photo) => many((rows) => rows.many.mentions, photo))
        .map((row) => ({ ...row })),
    append: async (rows) => writeAppend(base, draft, rows),
  }
}

const byReceipt = (a: AsidePushRow, b: AsidePushRow): number =>
  a.receivedAt - b.receivedAt || a.epoch - b.epoch || a.from - b.from || (a.note < b.note ? -1 : 1)
