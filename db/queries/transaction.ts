import { and, asc, eq, gt, gte, inArray, lt, sql } from 'drizzle-orm'
import type { Lane } from '../connect/lane.ts'
import { isUuid } from '../log-store/check-append.ts'
import type { CompanyRow, LogTx } from '../log-store/log-store.ts'
import {
  asidePushes,
  blobs,
  checkpoints,
  companies,
  deviceLeaves,
  deviceLogs,
  leaves,
  photoMentions,
  setAside,
  threads,
} from '../schema/tables.ts'
import { writeAppend } from './append.ts'
import { toAsidePush, toDeviceLog, toLeaf, toMention, toThread } from './rows.ts'

/** The steps of a transaction on a locked company. `state` follows the company's row as the steps change it. */
export const transactionSteps = (
  lane: Lane,
  company: string,
  state: { row: CompanyRow | undefined; changed: boolean },
): LogTx => {
  const { db } = lane
  return {
    company: async () => state.row,
    found: async ({ origin }) => {
      const frontier = { size: 0, peaks: [] }
      await db.insert(companies).values({ company, origin, ...frontier })
      state.row = { company, origin, frontier, stopped: undefined }
      state.changed = true
    },
    threads: async (jobs) => {
      if (!jobs.some(isUuid)) return []
      const rows = await db
        .select()
        .from(threads)
        .where(and(eq(threads.company, company), inArray(threads.job, jobs.filter(isUuid))))
      return rows.map(toThread)
    },
    threadLeaves: async (job, afterCount) => {
      if (!isUuid(job)) return []
      const rows = await db
        .select()
        .from(leaves)
        .where(and(eq(leaves.company, company), eq(leaves.job, job), gt(leaves.count, afterCount)))
        .orderBy(asc(leaves.count))
      return rows.map(toLeaf)
    },
    byIds: async (ids) => {
      if (!ids.some(isUuid)) return []
      return db
        .select({ id: leaves.id, entryHash: leaves.entryHash, position: leaves.position })
        .from(leaves)
        .where(and(eq(leaves.company, company), inArray(leaves.id, ids.filter(isUuid))))
    },
    byHashes: async (hashes) => {
      if (hashes.length === 0) return []
      return db
        .select({ entryHash: leaves.entryHash, position: leaves.position, job: leaves.job })
        .from(leaves)
        .where(and(eq(leaves.company, company), inArray(leaves.entryHash, [...hashes])))
    },
    deviceLogs: async (device) => {
      if (!isUuid(device)) return []
      const rows = await db
        .select()
        .from(deviceLogs)
        .where(and(eq(deviceLogs.company, company), eq(deviceLogs.device, device)))
        .orderBy(asc(deviceLogs.epoch))
      return rows.map(toDeviceLog)
    },
    deviceLeaves: async (device, epoch, from, limit) => {
      if (!isUuid(device)) return []
      const log = and(
        eq(deviceLeaves.company, company),
        eq(deviceLeaves.device, device),
        eq(deviceLeaves.epoch, epoch),
      )
      const rows = await db
        .select({ entryHash: deviceLeaves.entryHash })
        .from(deviceLeaves)
        .where(and(log, gte(deviceLeaves.index, from)))
        .orderBy(asc(deviceLeaves.index))
        .limit(limit)
      return rows.map((row) => row.entryHash)
    },
    checkpointAt: async (size) => {
      const [row] = await db
        .select({ size: checkpoints.size, root: checkpoints.root, note: checkpoints.note })
        .from(checkpoints)
        .where(and(eq(checkpoints.company, company), eq(checkpoints.size, size)))
      return row
    },
    leafHashes: async (size) => {
      const rows = await db
        .select({ leafHash: leaves.leafHash })
        .from(leaves)
        .where(and(eq(leaves.company, company), lt(leaves.position, size)))
        .orderBy(asc(leaves.position))
      return rows.map((row) => row.leafHash)
    },
    setAside: async (hashes) => {
      if (hashes.length === 0) return []
      const { device, entryHash, bytes, receivedAt } = setAside
      return db
        .select({ device, entryHash, bytes, receivedAt })
        .from(setAside)
        .where(and(eq(setAside.company, company), inArray(entryHash, [...hashes])))
    },
    asidePushes: async (device) => {
      if (!isUuid(device)) return []
      const rows = await db
        .select()
        .from(asidePushes)
        .where(and(eq(asidePushes.company, company), eq(asidePushes.device, device)))
        .orderBy(
          asc(asidePushes.receivedAt),
          asc(asidePushes.epoch),
          asc(asidePushes.from),
          // By code points, as memory has it, whatever the database's collation.
          sql`${asidePushes.note} collate "C"`,
        )
      return rows.map(toAsidePush)
    },
    blobs: async (hashes) => {
      if (hashes.length === 0) return []
      return db
        .select({ hash: blobs.hash, bytes: blobs.bytes, type: blobs.type, receivedAt: blobs.receivedAt })
        .from(blobs)
        .where(and(eq(blobs.company, company), inArray(blobs.hash, [...hashes])))
    },
    mentions: async (photos) => {
      if (photos.length === 0) return []
      const rows = await db
        .select()
        .from(photoMentions)
        .where(and(eq(photoMentions.company, company), inArray(photoMentions.photo, [...photos])))
      return rows.map(toMention)
    },
    append: async (rows) => {
      if (!state.row) throw new Error('append: there is no such company')
      await writeAppend(lane, state.row, rows)
      const stopped = rows.stopped ? { ...rows.stopped } : state.row.stopped
      state.row = { ...state.row, frontier: rows.frontier, stopped }
      state.changed = true
    },
  }
}
