import type {
  AsidePushRow,
  CompanyRow,
  DeviceLogRow,
  HeadRow,
  LeafRow,
  MentionRow,
  ThreadRow,
} from '../log-store/log-store.ts'
import type {
  asidePushes,
  companies,
  deviceHeads,
  deviceLogs,
  leaves,
  photoMentions,
  threads,
} from '../schema/tables.ts'

/** From rows of the tables to those of the store's interface. */
export const toCompany = (row: typeof companies.$inferSelect): CompanyRow => ({
  company: row.company,
  origin: row.origin,
  frontier: { size: row.size, peaks: row.peaks },
  stopped:
    row.stoppedCode === null ? undefined : { code: row.stoppedCode, evidence: row.stoppedEvidence ?? '' },
})

export const toThread = (row: typeof threads.$inferSelect): ThreadRow => ({
  job: row.job,
  tag: row.tag,
  count: row.count,
  last: row.last,
})

export const toLeaf = (row: typeof leaves.$inferSelect): LeafRow => ({
  position: row.position,
  leaf: row.leaf,
  leafHash: row.leafHash,
  entryHash: row.entryHash,
  id: row.id,
  job: row.job,
  count: row.count,
  kind: row.kind,
  device: row.device,
  receivedAt: row.receivedAt,
  bytes: row.bytes ?? undefined,
})

export const toDeviceLog = (row: typeof deviceLogs.$inferSelect): DeviceLogRow => ({
  device: row.device,
  epoch: row.epoch,
  frontier: { size: row.size, peaks: row.peaks },
})

export const toHead = (row: typeof deviceHeads.$inferSelect): HeadRow => ({
  device: row.device,
  epoch: row.epoch,
  size: row.size,
  root: row.root,
  note: row.note,
  atSize: row.atSize,
  receivedAt: row.receivedAt,
  disputed: row.disputed,
})

export const toMention = (row: typeof photoMentions.$inferSelect): MentionRow => ({
  photo: row.photo,
  job: row.job,
  kind: row.kind as MentionRow['kind'],
})

export const toAsidePush = (row: typeof asidePushes.$inferSelect): AsidePushRow => ({
  device: row.device,
  epoch: row.epoch,
  from: row.from,
  hashes: row.hashes,
  size: row.size,
  root: row.root,
  note: row.note,
  receivedAt: row.receivedAt,
})
