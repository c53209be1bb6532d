import { createHash } from 'node:crypto'
import { and, eq, lte, sql } from 'drizzle-orm'
import type { Db } from '../connect/clients.ts'
import type { Lane } from '../connect/lane.ts'
import { checkAppend, type DeviceRun, deviceRuns } from '../log-store/check-append.ts'
import type { Append, CompanyRow, DeviceLogRow } from '../log-store/log-store.ts'
import {
  asidePushes,
  blobs,
  checkpoints,
  companies,
  deviceHeads,
  deviceLogs,
  photoMentions,
  setAside,
  stamps,
  threads,
} from '../schema/tables.ts'
import { appendLeaves } from './append-leaves.ts'

/** Rows an INSERT: past some hundreds a longer statement is no cheaper, and its parameters are limited to 65,534. */
const AT_ONCE = 500

/** One statement after the other, on the locked company's connection. A key that is taken throws. */
export const writeAppend = async (lane: Lane, before: CompanyRow, rows: Append): Promise<void> => {
  const { db } = lane
  checkAppend(before.frontier, rows)
  const { company } = before
  await moveCompany(db, company, rows)
  await moveThreads(db, company, rows)
  const runs = deviceRuns(rows)
  for (const [i, log] of rows.deviceLogs.entries()) await moveDeviceLog(db, company, log, runs[i]!)
  await appendLeaves(lane, company, rows)
  for (const some of pieces(rows.heads)) {
    const heads = some.map((head) => ({ company, ...head, noteHash: hashOfNote(head) }))
    await db.insert(deviceHeads).values(heads).onConflictDoNothing()
  }
  if (rows.checkpoint) await db.insert(checkpoints).values({ company, ...rows.checkpoint })
  for (const some of pieces(rows.setAside)) {
    await db
      .insert(setAside)
      .values(some.map((row) => ({ company, ...row })))
      .onConflictDoNothing()
  }
  for (const some of pieces(rows.asidePushes)) {
    const pushes = some.map((push) => ({ company, ...push, noteHash: hashOfNote(push) }))
    await db.insert(asidePushes).values(pushes).onConflictDoNothing()
  }
  for (const some of pieces(rows.blobs)) {
    await db
      .insert(blobs)
      .values(some.map((row) => ({ company, ...row })))
      .onConflictDoNothing()
  }
  for (const some of pieces(rows.stamps ?? [])) {
    await db
      .insert(stamps)
      .values(some.map((row) => ({ company, ...row })))
      .onConflictDoNothing()
  }
  for (const some of pieces(rows.mentions)) {
    await db
      .insert(photoMentions)
      .values(some.map((row) => ({ company, ...row })))
      .onConflictDoNothing()
  }
}

const hashOfNote = ({ note }: { readonly note: string }): string =>
  createHash('sha256').update(note).digest('hex')

const moveCompany = async (db: Db, company: string, { frontier, stopped }: Append): Promise<void> => {
  const stop = stopped ? { stoppedCode: stopped.code, stoppedEvidence: stopped.evidence } : {}
  await db
    .update(companies)
    .set({ ...frontier, ...stop })
    .where(eq(companies.company, company))
}

const moveThreads = async (db: Db, company: string, rows: Append): Promise<void> => {
  const lastPositions = new Map(rows.leaves.map((leaf) => [leaf.job, leaf.position]))
  for (const some of pieces(rows.threads)) {
    const moved = await db
      .insert(threads)
      .values(some.map((thread) => ({ company, ...thread, lastPosition: lastPositions.get(thread.job)! })))
      .onConflictDoUpdate({
        target: [threads.company, threads.job],
        set: {
          count: sql`excluded.count`,
          last: sql`excluded.last`,
          lastPosition: sql`excluded.last_position`,
        },
        setWhere: lte(threads.count, sql`excluded.count`),
      })
      .returning({ job: threads.job })
    if (moved.length !== some.length) throw new Error('append: a thread goes back')
  }
}

const moveDeviceLog = async (db: Db, company: string, log: DeviceLogRow, run: DeviceRun): Promise<void> => {
  const { device, epoch, frontier } = log
  const end = { size: frontier.size, peaks: frontier.peaks }
  const here = and(
    eq(deviceLogs.company, company),
    eq(deviceLogs.device, device),
    eq(deviceLogs.epoch, epoch),
  )
  const moved = await db
    .update(deviceLogs)
    .set(end)
    .where(and(here, eq(deviceLogs.size, run.from)))
    .returning({ size: deviceLogs.size })
  if (moved.length === 1) return
  // A log that is there at another size makes this fail by its key.
  if (run.from !== 0) throw new Error('append: a device log does not go on where it ended')
  await db.insert(deviceLogs).values({ company, device, epoch, ...end })
}

function* pieces<T>(rows: readonly T[]): Generator<readonly T[]> {
  for (let i = 0; i < rows.length; i += AT_ONCE) yield rows.slice(i, i + AT_ONCE)
}
