import type {
  Append,
  AsidePushRow,
  BlobRow,
  CompanyRow,
  DeviceLeafRow,
  DeviceLogRow,
  HeadRow,
  LeafRow,
  LogTx,
  MentionRow,
  SetAsideRow,
  StampRow,
  ThreadRow,
} from '../../../db/log-store/log-store.ts'
import { type Happening, makeEntry } from '../../domain/entry/make.ts'
import type { HashedEntry } from '../../domain/entry/read.ts'
import { readEntry } from '../../domain/entry/read.ts'
import type { Kind } from '../../domain/entry/registry.ts'
import { writeCheckpoint } from '../../domain/log/checkpoint.ts'
import { deviceOrigin, writeHead } from '../../domain/log/device-log.ts'
import { readHex } from '../../domain/log/encoding.ts'
import { signNote } from '../../domain/log/note.ts'
import { extendThread, newThread } from '../../domain/log/thread.ts'
import { append, EMPTY_FRONTIER, type Frontier, rootOf } from '../../domain/log/tree.ts'
import { toUtcTime } from '../../domain/time.ts'
import type { CompanyKeys } from '../keys.ts'
import type { ServerWorld } from '../world.ts'
import { type CompanyState, withCompanyEntries } from './company-state.ts'

/** What the log will be after the transaction that is being put together; nothing is written before `finish`. */
export type Draft = {
  readonly company: string
  readonly origin: string
  readonly tx: LogTx
  /** Time of receipt, milliseconds since the epoch: one reading of the clock for the whole transaction. */
  readonly now: number
  readonly keys: CompanyKeys
  state(): CompanyState
  size(): number
  /** Position of an entry, by its hash (hex): in the log, or in this draft. */
  positionOf(hash: string): Promise<number | undefined>
  /** Hash of the entry that holds this id: in the log, or in this draft. */
  holderOfId(id: string): Promise<string | undefined>
  /** Adds a leaf for an entry at the end of its thread; returns its position. */
  add(entry: HashedEntry, bytes: Uint8Array): Promise<number>
  /** Makes and adds an entry of the server's own device; returns its hash. */
  say<K extends Kind>(happening: Omit<Happening<K>, 'occurredAt' | 'source'>): Promise<string>
  deviceLog(device: string, epoch: number): Promise<Frontier | undefined>
  newestEpoch(device: string): Promise<number>
  deviceHashes(device: string, epoch: number, from: number, to: number): Promise<string[]>
  extendDevice(device: string, epoch: number, hashes: readonly string[]): Promise<void>
  addHead(head: Omit<HeadRow, 'atSize' | 'receivedAt'>): void
  setAside(row: Omit<SetAsideRow, 'receivedAt'>): void
  addAsidePush(row: Omit<AsidePushRow, 'receivedAt'>): void
  /** What was set aside under these hashes, before or in this draft. */
  setAsideRows(hashes: readonly string[]): Promise<SetAsideRow[]>
  asidePushes(device: string): Promise<AsidePushRow[]>
  addBlob(row: Omit<BlobRow, 'receivedAt'>): Promise<void>
  addStamp(row: Omit<StampRow, 'receivedAt'>): void
  blob(hash: string): Promise<BlobRow | undefined>
  mentions(photo: string): Promise<MentionRow[]>
  stop(code: string, evidence: string): void
  isStopped(): boolean
  /** Signs and writes all of it. */
  finish(): Promise<void>
}

export const openDraft = (world: ServerWorld, tx: LogTx, row: CompanyRow, known: CompanyState): Draft => {
  const { company, origin } = row
  const now = world.now()
  const keys = world.keysOf(origin)
  let state = known
  let frontier: Frontier = row.frontier
  let stopped: Append['stopped']
  const leaves: LeafRow[] = []
  const threads = new Map<string, ThreadRow>()
  const positions = new Map<string, number>()
  const holders = new Map<string, string>()
  const deviceLogs = new Map<string, DeviceLogRow>()
  const deviceLeaves: DeviceLeafRow[] = []
  const heads: Omit<HeadRow, 'atSize' | 'receivedAt'>[] = []
  const setAside: SetAsideRow[] = []
  const asidePushes: AsidePushRow[] = []
  const blobs: BlobRow[] = []
  const stamps: StampRow[] = []
  const mentions: MentionRow[] = []

  const thread = async (job: string): Promise<ThreadRow> => {
    const drafted = threads.get(job) ?? (await tx.threads([job]))[0]
    return drafted ?? { job, ...newThread(world.random(16)) }
  }

  const draft: Draft = {
    company,
    origin,
    tx,
    now,
    keys,
    state: () => state,
    size: () => frontier.size,
    positionOf: async (hash) => positions.get(hash) ?? (await tx.byHashes([hash]))[0]?.position,
    holderOfId: async (id) => holders.get(id) ?? (await tx.byIds([id]))[0]?.entryHash,
    add: async (entry, bytes) => {
      const { job, kind, id, device, body } = entry.entry
      const from = await thread(job)
      const next = extendThread(from, readHex(entry.hash)!, now, world.sha256)
      const position = frontier.size
      frontier = append(frontier, next.leafHash, world.sha256)
      threads.set(job, { job, ...next.end })
      positions.set(entry.hash, position)
      holders.set(id, entry.hash)
      leaves.push({
        position,
        leaf: next.bytes,
        leafHash: next.leafHash,
        entryHash: entry.hash,
        id,
        job,
        kind,
        device,
        bytes,
        count: next.leaf.count,
        receivedAt: now,
      })
      if (kind === 'photo.taken' || kind === 'photo.received') mentions.push({ photo: body.photo, job, kind })
      if (job === company) state = withCompanyEntries(state, [entry], next.leaf.count)
      return position
    },
    say: async (happening) => {
      const at = toUtcTime(now).replace('Z', '+00:00')
      const maker = { device: keys.device.id, by: { known: 'server' } as const, boot: world.boot }
      const moment = { now, recordedAt: at, mono: world.mono() }
      const bytes = makeEntry(
        { ...happening, occurredAt: at, source: 'server' } as Happening<Kind>,
        maker,
        moment,
        world.random,
      )
      const read = readEntry(bytes, world.sha256)
      if (!read.ok || !('entry' in read.value))
        throw new Error(`the server made an entry that it cannot read: ${happening.kind}`)
      await draft.add(read.value, bytes)
      await draft.extendDevice(keys.device.id, SERVER_EPOCH, [read.value.hash])
      return read.value.hash
    },
    deviceLog: async (device, epoch) => (await rowOf(device, epoch))?.frontier,
    newestEpoch: async (device) => {
      const drafted = [...deviceLogs.values()].filter((log) => log.device === device)
      const all = [...(await tx.deviceLogs(device)), ...drafted]
      return Math.max(0, ...all.map((log) => log.epoch))
    },
    deviceHashes: async (device, epoch, from, to) => {
      const stored = await tx.deviceLeaves(device, epoch, from, to - from)
      const drafted = deviceLeaves.filter(
        (l) => l.device === device && l.epoch === epoch && l.index >= from + stored.length && l.index < to,
      )
      return [...stored, ...drafted.map((l) => l.entryHash)]
    },
    extendDevice: async (device, epoch, hashes) => {
      let own = (await rowOf(device, epoch))?.frontier ?? EMPTY_FRONTIER
      for (const entryHash of hashes) {
        deviceLeaves.push({ device, epoch, index: own.size, entryHash })
        own = append(own, readHex(entryHash)!, world.sha256)
      }
      deviceLogs.set(`${device}/${epoch}`, { device, epoch, frontier: own })
    },
    addHead: (head) => {
      heads.push(head)
    },
    setAside: (aside) => {
      setAside.push({ ...aside, receivedAt: now })
    },
    addAsidePush: (push) => {
      asidePushes.push({ ...push, receivedAt: now })
    },
    setAsideRows: async (hashes) => [
      ...(await tx.setAside(hashes)),
      ...setAside.filter((row) => hashes.includes(row.entryHash)),
    ],
    asidePushes: async (device) => [
      ...(await tx.asidePushes(device)),
      ...asidePushes.filter((push) => push.device === device),
    ],
    addBlob: async (blob) => {
      blobs.push({ ...blob, receivedAt: now })
    },
    addStamp: (stamp) => {
      stamps.push({ ...stamp, receivedAt: now })
    },
    blob: async (hash) => blobs.find((b) => b.hash === hash) ?? (await tx.blobs([hash]))[0],
    mentions: async (photo) => [
      ...(await tx.mentions([photo])),
      ...mentions.filter((m) => m.photo === photo),
    ],
    stop: (code, evidence) => {
      stopped ??= { code, evidence }
    },
    isStopped: () => row.stopped !== undefined || stopped !== undefined,
    finish: async () => {
      await signServerHead()
      const root = rootOf(frontier, world.sha256)
      const checkpoint =
        leaves.length === 0
          ? undefined
          : {
              size: frontier.size,
              root,
              note: await signNote(
                writeCheckpoint({ origin, size: frontier.size, root }),
                keys.log.noteKey,
                keys.log.sign,
                world.sha256,
              ),
            }
      await tx.append({
        frontier,
        leaves,
        checkpoint,
        deviceLeaves,
        setAside,
        asidePushes,
        blobs,
        stamps,
        mentions,
        threads: [...threads.values()],
        deviceLogs: [...deviceLogs.values()],
        heads: heads.map((head) => ({ ...head, atSize: frontier.size, receivedAt: now })),
        ...(stopped ? { stopped } : {}),
      })
    },
  }

  const rowOf = async (device: string, epoch: number): Promise<DeviceLogRow | undefined> =>
    deviceLogs.get(`${device}/${epoch}`) ?? (await tx.deviceLogs(device)).find((log) => log.epoch === epoch)

  /** The server's own device signs like any other, with the log as it stood before this transaction as last seen. */
  const signServerHead = async (): Promise<void> => {
    const own = deviceLogs.get(`${keys.device.id}/${SERVER_EPOCH}`)
    if (!own) return
    const name = deviceOrigin(origin, keys.device.id, SERVER_EPOCH)
    const root = rootOf(own.frontier, world.sha256)
    const text = writeHead({
      origin: name,
      size: own.frontier.size,
      root,
      seen: { size: row.frontier.size, root: rootOf(row.frontier, world.sha256) },
      clock: { at: toUtcTime(now).replace('Z', '+00:00'), boot: world.boot, mono: Math.floor(world.mono()) },
    })
    const note = await signNote(
      text,
      { name, publicKey: keys.device.publicKey },
      keys.device.sign,
      world.sha256,
    )
    heads.push({
      device: keys.device.id,
      epoch: SERVER_EPOCH,
      size: own.frontier.size,
      root,
      note,
      disputed: false,
    })
  }

  return draft
}

/** The server's device log is one for ever: it lives in the database, under the company's lock. */
export const SERVER_EPOCH = 1
