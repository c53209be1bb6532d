import { checkAppend, deviceRuns } from '../log-store/check-append.ts'
import type {
  Append,
  AsidePushRow,
  DeviceLogRow,
  HeadRow,
  LeafRow,
  MentionRow,
  SetAsideRow,
} from '../log-store/log-store.ts'
import {
  copyAsidePush,
  copyCheckpoint,
  copyDeviceLog,
  copyFrontier,
  copyHead,
  copyLeaf,
  copySetAside,
  copyStamp,
  copyThread,
} from './copies.ts'
import { listOf, logKey, type Rows } from './rows.ts'

/** Adds to the draft what the base must not hold already, as the keys of the tables in PostgreSQL have it. */
export const writeAppend = (base: Rows, draft: Rows, rows: Append): void => {
  const company = draft.company ?? base.company
  if (!company) throw new Error('append: there is no such company')
  checkAppend(company.frontier, rows)
  for (const leaf of rows.leaves) writeLeaf(base, draft, copyLeaf(leaf))
  for (const thread of rows.threads) {
    const before = draft.one.threads.get(thread.job) ?? base.one.threads.get(thread.job)
    if (before && before.count > thread.count) throw new Error('append: a thread goes back')
    draft.one.threads.set(thread.job, copyThread(thread))
  }
  for (const log of rows.deviceLogs) writeDeviceLog(base, draft, log, rows)
  for (const head of rows.heads) writeHead(base, draft, head)
  if (rows.checkpoint) {
    const { size } = rows.checkpoint
    if (base.one.checkpoints.has(size) || draft.one.checkpoints.has(size))
      throw new Error('append: a checkpoint of that size is there')
    draft.one.checkpoints.set(size, copyCheckpoint(rows.checkpoint))
    listOf(draft.many.checkpointSizes, '').push(size)
  }
  for (const row of rows.setAside) writeSetAside(base, draft, row)
  for (const row of rows.asidePushes) writeAsidePush(base, draft, row)
  for (const row of rows.blobs) if (!base.one.blobs.has(row.hash)) draft.one.blobs.set(row.hash, { ...row })
  for (const row of rows.stamps ?? [])
    if (!base.one.stamps.has(row.token)) draft.one.stamps.set(row.token, copyStamp(row))
  for (const row of rows.mentions) writeMention(base, draft, row)
  draft.company = {
    ...company,
    frontier: copyFrontier(rows.frontier),
    stopped: rows.stopped ? { ...rows.stopped } : company.stopped,
  }
}

const writeLeaf = (base: Rows, draft: Rows, leaf: LeafRow): void => {
  if (base.one.byHash.has(leaf.entryHash) || draft.one.byHash.has(leaf.entryHash))
    throw new Error('append: an entry is there already')
  if (base.one.byId.has(leaf.id) || draft.one.byId.has(leaf.id))
    throw new Error('append: an id is there already')
  draft.one.byHash.set(leaf.entryHash, leaf)
  draft.one.byId.set(leaf.id, leaf)
  listOf(draft.many.leaves, '').push(leaf)
  listOf(draft.many.byJob, leaf.job).push(leaf)
}

const writeDeviceLog = (base: Rows, draft: Rows, log: DeviceLogRow, rows: Append): void => {
  const key = logKey(log.device, log.epoch)
  const before = draft.one.deviceLogs.get(key) ?? base.one.deviceLogs.get(key)
  const run = deviceRuns(rows).find((one) => logKey(one.device, one.epoch) === key)!
  if ((before?.frontier.size ?? 0) !== run.from)
    throw new Error('append: a device log does not go on where it ended')
  if (!before) listOf(draft.many.epochs, log.device).push(log.epoch)
  draft.one.deviceLogs.set(key, copyDeviceLog(log))
  for (const leaf of run.leaves) {
    listOf(draft.many.deviceLeaves, key).push(leaf.entryHash)
    listOf(draft.many.whereOnDevice, leaf.entryHash).push({ ...leaf })
  }
}

/** The same note again is no second head. */
const writeHead = (base: Rows, draft: Rows, head: HeadRow): void => {
  const key = `${logKey(head.device, head.epoch)}/${head.size}/${head.note}`
  if (!base.one.heads.has(key) && !draft.one.heads.has(key)) draft.one.heads.set(key, copyHead(head))
}

const writeMention = (base: Rows, draft: Rows, row: MentionRow): void => {
  const key = `${row.photo}/${row.job}/${row.kind}`
  if (base.one.mentionKeys.has(key) || draft.one.mentionKeys.has(key)) return
  draft.one.mentionKeys.set(key, { ...row })
  listOf(draft.many.mentions, row.photo).push({ ...row })
}

const writeSetAside = (base: Rows, draft: Rows, row: SetAsideRow): void => {
  if (base.one.setAside.has(row.entryHash) || draft.one.setAside.has(row.entryHash)) return
  draft.one.setAside.set(row.entryHash, copySetAside(row))
  listOf(draft.many.asideOf, row.device).push(copySetAside(row))
}

/** The same push again is no second one. */
const writeAsidePush = (base: Rows, draft: Rows, row: AsidePushRow): void => {
  const key = `${row.device}/${row.note}`
  if (base.one.asidePushKeys.has(key) || draft.one.asidePushKeys.has(key)) return
  draft.one.asidePushKeys.set(key, copyAsidePush(row))
  listOf(draft.many.asidePushes, row.device).push(copyAsidePush(row))
}
