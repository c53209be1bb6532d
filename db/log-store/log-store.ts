/**
 * The log as the server keeps it. PostgreSQL is the store; `db/memory` is its twin for the simulator and fast tests.
 * One suite (`tests/store`) holds both to these promises:
 *  - `transact` runs alone for its company, from the first read to the commit, across any number of processes;
 *  - when it returns, all that was written is durable; when `fn` fails or throws, nothing was;
 *  - a failure of the commit itself throws `CommitUnknown`: the caller reads the head again before it answers anyone;
 *  - readers see whole transactions only.
 * Nothing here knows HTTP, and nothing checks a signature: the sequencer does.
 */

/** A tree's state: SPEC L11. */
export type FrontierRow = { readonly size: number; readonly peaks: readonly Uint8Array[] }

export type CompanyRow = {
  readonly company: string
  readonly origin: string
  readonly frontier: FrontierRow
  /** Why the server takes no entries for this company: a signed note that its tree contradicts (SPEC L49). */
  readonly stopped: { readonly code: string; readonly evidence: string } | undefined
}

export type ThreadRow = {
  readonly job: string
  readonly tag: Uint8Array
  readonly count: number
  /** Leaf hash of the thread's last leaf. */
  readonly last: Uint8Array
}

export type LeafRow = {
  readonly position: number
  /** The 97 bytes of SPEC L13. */
  readonly leaf: Uint8Array
  readonly leafHash: Uint8Array
  /** Hex. */
  readonly entryHash: string
  readonly id: string
  readonly job: string
  readonly count: number
  readonly kind: string
  readonly device: string
  readonly receivedAt: number
  /** The entry's bytes as received; undefined where nobody holds them any more. */
  readonly bytes: Uint8Array | undefined
}

export type DeviceLogRow = { readonly device: string; readonly epoch: number; readonly frontier: FrontierRow }
export type DeviceLeafRow = {
  readonly device: string
  readonly epoch: number
  readonly index: number
  readonly entryHash: string
}
export type HeadRow = {
  readonly device: string
  readonly epoch: number
  readonly size: number
  readonly root: Uint8Array
  /** The whole signed note. */
  readonly note: string
  /** Size of the company log after the transaction that took it. */
  readonly atSize: number
  readonly receivedAt: number
  /** True where it contradicts what was taken before (SPEC L25): evidence, and nothing was appended for it. */
  readonly disputed: boolean
}
export type CheckpointRow = { readonly size: number; readonly root: Uint8Array; readonly note: string }
/** Bytes of a withdrawn device, set aside until an owner decides. */
export type SetAsideRow = {
  readonly device: string
  readonly entryHash: string
  readonly bytes: Uint8Array
  readonly receivedAt: number
}
/**
 * A withdrawn device's push as it signed it: the places of its entries in the device's log, and the head over them. By it
 * the author of what is admitted later can be shown.
 */
export type AsidePushRow = {
  readonly device: string
  readonly epoch: number
  readonly from: number
  /** Entry hashes, hex, in the order pushed. */
  readonly hashes: readonly string[]
  readonly size: number
  readonly root: Uint8Array
  /** The whole signed head. */
  readonly note: string
  readonly receivedAt: number
}
/** A photo that was stored whole and whose hash agreed. */
export type BlobRow = {
  readonly hash: string
  readonly bytes: number
  readonly type: string
  readonly receivedAt: number
}

/** What an outside authority answered about the checkpoint of a size: its response as it came. */
export type StampRow = {
  /** SHA-256 of the bytes, hex. */
  readonly token: string
  readonly size: number
  readonly bytes: Uint8Array
  readonly receivedAt: number
}

export type MentionRow = {
  readonly photo: string
  readonly job: string
  readonly kind: 'photo.taken' | 'photo.received'
}

/** All that one transaction adds. Rows are only ever added, but for the ends of threads and logs, which move forward. */
export type Append = {
  readonly frontier: FrontierRow
  readonly leaves: readonly LeafRow[]
  readonly threads: readonly ThreadRow[]
  readonly deviceLogs: readonly DeviceLogRow[]
  readonly deviceLeaves: readonly DeviceLeafRow[]
  readonly heads: readonly HeadRow[]
  /** The signed checkpoint at the new size; undefined only where no leaf was added. */
  readonly checkpoint: CheckpointRow | undefined
  readonly setAside: readonly SetAsideRow[]
  readonly asidePushes: readonly AsidePushRow[]
  readonly blobs: readonly BlobRow[]
  /** Which job's thread names which photo, by an entry of which kind among the appended leaves. */
  readonly mentions: readonly MentionRow[]
  readonly stamps?: readonly StampRow[]
  readonly stopped?: { readonly code: string; readonly evidence: string }
}

export type LogTx = {
  /** The company's row, locked until the end of the transaction; undefined where there is no such company. */
  company(): Promise<CompanyRow | undefined>
  /** Makes the company; fails by exception where its id or origin is taken. */
  found(row: { origin: string }): Promise<void>
  threads(jobs: readonly string[]): Promise<ThreadRow[]>
  /** Leaves of one thread whose count is greater than `afterCount`, in order. */
  threadLeaves(job: string, afterCount: number): Promise<LeafRow[]>
  /** Which of these entry ids the log has, with the hash of the bytes under them. */
  byIds(ids: readonly string[]): Promise<{ id: string; entryHash: string; position: number }[]>
  byHashes(hashes: readonly string[]): Promise<{ entryHash: string; position: number; job: string }[]>
  deviceLogs(device: string): Promise<DeviceLogRow[]>
  /** Entry hashes (hex) of a device's log from an index on, at most `limit`. */
  deviceLeaves(device: string, epoch: number, from: number, limit: number): Promise<string[]>
  checkpointAt(size: number): Promise<CheckpointRow | undefined>
  /** Leaf hashes in order of position, from 0 to `size`: for a root at a size that was never signed. */
  leafHashes(size: number): Promise<Uint8Array[]>
  setAside(hashes: readonly string[]): Promise<SetAsideRow[]>
  /** A device's pushes that were set aside, in the order in which they came. */
  asidePushes(device: string): Promise<AsidePushRow[]>
  blobs(hashes: readonly string[]): Promise<BlobRow[]>
  mentions(photos: readonly string[]): Promise<MentionRow[]>
  append(rows: Append): Promise<void>
}

export type Page = {
  readonly leaves: readonly LeafRow[]
  /** The signed checkpoint at the page's end; the log's newest where the page reaches it. */
  readonly checkpoint: CheckpointRow | undefined
}

export type LogStore = {
  transact<T>(company: string, fn: (tx: LogTx) => Promise<T>): Promise<T>
  companies(): Promise<string[]>
  company(company: string): Promise<CompanyRow | undefined>
  /**
   * Leaves from a position on, up to the last signed checkpoint at or below `from + limit`, or, where the first one
   * beyond `from` lies further, up to that one: so that each page can be verified by itself.
   */
  page(company: string, from: number, limit: number): Promise<Page>
  checkpointAt(company: string, size: number): Promise<CheckpointRow | undefined>
  /** The last checkpoint whose newest leaf was received before a time (ms); undefined where there is none. */
  checkpointBefore(company: string, time: number): Promise<CheckpointRow | undefined>
  /** An authority's response by its SHA-256 (hex). */
  stamp(company: string, token: string): Promise<StampRow | undefined>
  /** The newest checkpoint; undefined where nothing was signed yet. */
  newestCheckpoint(company: string): Promise<CheckpointRow | undefined>
  /** A thread's leaves from first to last, up to the log size `upTo`. */
  thread(company: string, job: string, upTo?: number): Promise<LeafRow[]>
  /** Jobs (thread ids) with their count and the position of their last leaf, newest first. */
  threads(company: string): Promise<{ job: string; count: number; lastPosition: number }[]>
  leafHashes(company: string, size: number): Promise<Uint8Array[]>
  deviceLeaves(company: string, device: string, epoch: number, size: number): Promise<string[]>
  /** Where in its device's logs an entry stands. */
  deviceIndexOf(company: string, hashes: readonly string[]): Promise<DeviceLeafRow[]>
  heads(company: string): Promise<HeadRow[]>
  blob(company: string, hash: string): Promise<BlobRow | undefined>
  /** What was set aside of a device, in the order of receipt, then of hash. */
  setAside(company: string, device: string): Promise<SetAsideRow[]>
  /** Calls back with a company's id after each commit, in this process or another; returns a way to stop. */
  onCommit(listener: (company: string) => void): Promise<() => Promise<void>>
}

/** The connection broke while the commit was on its way: it may or may not have happened. */
export class CommitUnknown extends Error {
  override readonly name = 'CommitUnknown'
}
