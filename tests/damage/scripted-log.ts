import { hashEntry } from '../../api/domain/entry/read.ts'
import { writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { deviceOrigin, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex } from '../../api/domain/log/encoding.ts'
import { signNote } from '../../api/domain/log/note.ts'
import { subtrees } from '../../api/domain/log/proof.ts'
import { extendThread, newThread, type ThreadEnd } from '../../api/domain/log/thread.ts'
import { toLocalTime, toUtcTime } from '../../api/domain/time.ts'
import { type SigningKey, signingKey } from '../../api/server/keys.ts'
import { sha256 } from '../../api/server/senses.ts'
import type {
  CheckpointRow,
  DeviceLeafRow,
  HeadRow,
  LeafRow,
  LogStore,
  StampRow,
} from '../../db/log-store/log-store.ts'

/** A log as its rows, so that a test may change any of them as a forger with the database would. */
export type ScriptedLog = {
  readonly company: string
  readonly origin: string
  readonly key: SigningKey
  readonly leaves: LeafRow[]
  readonly heads: HeadRow[]
  readonly deviceLeaves: DeviceLeafRow[]
  readonly checkpoints: CheckpointRow[]
  readonly stamps: StampRow[]
}

export type ScriptedDevice = { readonly id: string; readonly key: SigningKey; readonly epoch: number }

/** The same 32 bytes for the same words: keys and ids of a script. */
export const seedOf = (words: string): Uint8Array => sha256(new TextEncoder().encode(words))

/** Bytes of chance that are the same on each run. */
export const chanceOf = (words: string) => {
  let turn = 0
  return (length: number): Uint8Array => seedOf(`${words} ${turn++}`).slice(0, length)
}

export const keyOf = (words: string): SigningKey => signingKey(seedOf(words))

export const emptyLog = (company: string, words = 'log'): ScriptedLog => ({
  company,
  origin: `screedbook/${company}`,
  key: keyOf(words),
  leaves: [],
  heads: [],
  deviceLeaves: [],
  checkpoints: [],
  stamps: [],
})

const threadEnd = (log: ScriptedLog, job: string): ThreadEnd => {
  const last = log.leaves.filter((leaf) => leaf.job === job).at(-1)
  const tag = seedOf(`tag ${job}`).slice(0, 16)
  return last ? { tag, count: last.count, last: last.leafHash } : newThread(tag)
}

type Told = { readonly id: string; readonly job: string; readonly kind: string; readonly device: string }

/** Adds one leaf, as the server does; an entry of a later release too, whose outer members keep their form (L9). */
export const addLeaf = (log: ScriptedLog, bytes: Uint8Array, receivedAt: number): void => {
  const hash = hashEntry(bytes, sha256)
  const { id, job, kind, device }: Told = JSON.parse(new TextDecoder().decode(bytes))
  const next = extendThread(threadEnd(log, job), readHex(hash)!, receivedAt, sha256)
  log.leaves.push({
    position: log.leaves.length,
    leaf: next.bytes,
    leafHash: next.leafHash,
    entryHash: hash,
    id,
    job,
    count: next.leaf.count,
    kind,
    device,
    receivedAt,
    bytes,
  })
}

export const treeHead = (log: ScriptedLog, size = log.leaves.length) => ({
  size,
  root: subtrees(
    log.leaves.map((leaf) => leaf.leafHash),
    sha256,
  )(0, size),
})

export const signCheckpoint = async (log: ScriptedLog, size = log.leaves.length): Promise<CheckpointRow> => {
  const head = treeHead(log, size)
  const text = writeCheckpoint({ origin: log.origin, ...head })
  const key = { name: log.origin, publicKey: log.key.publicKey }
  return { ...head, note: await signNote(text, key, log.key.sign, sha256) }
}

/** What a device made of a push: its entries in order, when its clock signed, and what it had seen of the log. */
export type Push = {
  readonly device: ScriptedDevice
  readonly entries: readonly Uint8Array[]
  readonly receivedAt: number
  /** Milliseconds that the device's clock is ahead; a signature takes 2 s to arrive. */
  readonly ahead?: number
  /** Size of the checkpoint that the device had verified. */
  readonly seen: number
  readonly boot: string
}

/** Takes a push whole, signs a checkpoint, and notes the device's head: one transaction. */
export const takePush = async (log: ScriptedLog, push: Push): Promise<void> => {
  const { device, entries, receivedAt, seen } = push
  const seenHead = treeHead(log, seen)
  const own = log.deviceLeaves.filter((l) => l.device === device.id && l.epoch === device.epoch)
  for (const bytes of entries) {
    addLeaf(log, bytes, receivedAt)
    own.push({
      device: device.id,
      epoch: device.epoch,
      index: own.length,
      entryHash: log.leaves.at(-1)!.entryHash,
    })
  }
  log.deviceLeaves.push(...own.slice(own.length - entries.length))
  const name = deviceOrigin(log.origin, device.id, device.epoch)
  const root = subtrees(
    own.map((l) => readHex(l.entryHash)!),
    sha256,
  )(0, own.length)
  const signedAt = receivedAt - 2_000 + (push.ahead ?? 0)
  const text = writeHead({
    origin: name,
    size: own.length,
    root,
    seen: seenHead,
    clock: { at: toLocalTime(signedAt, 'America/Chicago'), boot: push.boot, mono: 5_000 },
  })
  log.heads.push({
    device: device.id,
    epoch: device.epoch,
    size: own.length,
    root,
    note: await signNote(text, { name, publicKey: device.key.publicKey }, device.key.sign, sha256),
    atSize: log.leaves.length,
    receivedAt,
    disputed: false,
  })
  log.checkpoints.push(await signCheckpoint(log))
}

export const utc = (ms: number): string => toUtcTime(ms).replace('Z', '+00:00')

/** The rows as the store that the record's maker reads. */
export const storeOf = (log: ScriptedLog): LogStore => {
  const unused = async (): Promise<never> => {
    throw new Error('a record only reads')
  }
  const checkpointAt = async (_: string, size: number) => log.checkpoints.find((c) => c.size === size)
  return {
    transact: unused,
    onCommit: unused,
    blob: unused,
    setAside: unused,
    threads: unused,
    companies: async () => [log.company],
    company: async (company) =>
      company === log.company
        ? {
            company,
            origin: log.origin,
            frontier: { size: log.leaves.length, peaks: [] },
            stopped: undefined,
          }
        : undefined,
    page: async (_, from, limit) => ({
      leaves: log.leaves.slice(from, from + limit),
      checkpoint: log.checkpoints.at(-1),
    }),
    checkpointAt,
    checkpointBefore: unused,
    stamp: async (_, token) => log.stamps.find((row) => row.token === token),
    newestCheckpoint: async () => log.checkpoints.at(-1),
    thread: async (_, job, upTo = Number.POSITIVE_INFINITY) =>
      log.leaves.filter((leaf) => leaf.job === job && leaf.position < upTo),
    leafHashes: async (_, size) => log.leaves.slice(0, size).map((leaf) => leaf.leafHash),
    deviceLeaves: async (_, device, epoch, size) =>
      log.deviceLeaves
        .filter((l) => l.device === device && l.epoch === epoch)
        .slice(0, size)
        .map((l) => l.entryHash),
    deviceIndexOf: async (_, hashes) => log.deviceLeaves.filter((l) => hashes.includes(l.entryHash)),
    heads: async () => log.heads,
  }
}
