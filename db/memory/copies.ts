import type {
  AsidePushRow,
  CheckpointRow,
  CompanyRow,
  DeviceLogRow,
  FrontierRow,
  HeadRow,
  LeafRow,
  SetAsideRow,
  StampRow,
  ThreadRow,
} from '../log-store/log-store.ts'

/**
 * Copies of rows, bytes and all: what is kept is nobody else's array, as it would be in a database. `slice` won't do,
 * since a Buffer's slice is the same memory.
 */
export const copyBytes = (bytes: Uint8Array): Uint8Array => new Uint8Array(bytes)

export const copyFrontier = (row: FrontierRow): FrontierRow => ({
  size: row.size,
  peaks: row.peaks.map(copyBytes),
})

export const copyCompany = (row: CompanyRow): CompanyRow => ({
  company: row.company,
  origin: row.origin,
  frontier: copyFrontier(row.frontier),
  stopped: row.stopped && { code: row.stopped.code, evidence: row.stopped.evidence },
})

export const copyThread = (row: ThreadRow): ThreadRow => ({
  job: row.job,
  tag: copyBytes(row.tag),
  count: row.count,
  last: copyBytes(row.last),
})

export const copyLeaf = (row: LeafRow): LeafRow => ({
  position: row.position,
  leaf: copyBytes(row.leaf),
  leafHash: copyBytes(row.leafHash),
  entryHash: row.entryHash,
  id: row.id,
  job: row.job,
  count: row.count,
  kind: row.kind,
  device: row.device,
  receivedAt: row.receivedAt,
  bytes: row.bytes && copyBytes(row.bytes),
})

export const copyDeviceLog = (row: DeviceLogRow): DeviceLogRow => ({
  device: row.device,
  epoch: row.epoch,
  frontier: copyFrontier(row.frontier),
})

export const copyHead = (row: HeadRow): HeadRow => ({
  device: row.device,
  epoch: row.epoch,
  size: row.size,
  root: copyBytes(row.root),
  note: row.note,
  atSize: row.atSize,
  receivedAt: row.receivedAt,
  disputed: row.disputed,
})

export const copyCheckpoint = (row: CheckpointRow): CheckpointRow => ({
  size: row.size,
  root: copyBytes(row.root),
  note: row.note,
})

export const copySetAside = (row: SetAsideRow): SetAsideRow => ({
  device: row.device,
  entryHash: row.entryHash,
  bytes: copyBytes(row.bytes),
  receivedAt: row.receivedAt,
})

export const copyStamp = (row: StampRow): StampRow => ({
  token: row.token,
  size: row.size,
  bytes: copyBytes(row.bytes),
  receivedAt: row.receivedAt,
})

export const copyAsidePush = (row: AsidePushRow): AsidePushRow => ({
  device: row.device,
  epoch: row.epoch,
  from: row.from,
  hashes: [...row.hashes],
  size: row.size,
  root: copyBytes(row.root),
  note: row.note,
  receivedAt: row.receivedAt,
})
