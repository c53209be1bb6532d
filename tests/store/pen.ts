import { createHash } from 'node:crypto'
import { toHex } from '../../api/domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import type { Append, FrontierRow, HeadRow, LeafRow, ThreadRow } from '../../db/log-store/log-store.ts'

export const sha256 = (bytes: Uint8Array): Uint8Array =>
  new Uint8Array(createHash('sha256').update(bytes).digest())
export const hashOf = (text: string): Uint8Array => sha256(new TextEncoder().encode(text))
export const hexOf = (text: string): string => toHex(hashOf(text))

/** The same UUID for the same name. */
export const uuidOf = (name: string): string =>
  hexOf(name).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12}).*$/, '$1-$2-$3-$4-$5')

export const JOB = uuidOf('the job')
export const DEVICE = uuidOf('the device')

export const NOTHING: Omit<Append, 'frontier'> = {
  leaves: [],
  threads: [],
  deviceLogs: [],
  deviceLeaves: [],
  heads: [],
  checkpoint: undefined,
  setAside: [],
  asidePushes: [],
  blobs: [],
  mentions: [],
}

/** What a pen writes of one name: the same in every company, so that a store that mixes companies is found out. */
export type Line = { readonly name: string; readonly job?: string }

/**
 * Writes appends as the sequencer would: it knows where its company's log, threads and device log end. `append` moves
 * on; a pen that is copied before can say the same again.
 */
export const createPen = (
  from: PenState = { frontier: EMPTY_FRONTIER, threads: {}, device: EMPTY_FRONTIER },
) => {
  let state = from
  return {
    state: () => state,
    append: (...lines: readonly (string | Line)[]): Append => {
      const threads: Record<string, ThreadRow> = { ...state.threads }
      const leaves = lines.map((line, i): LeafRow => {
        const { name, job = JOB } = typeof line === 'string' ? { name: line } : line
        const filler = hashOf(name)
        const leaf = new Uint8Array(97).map((_, at) => filler[at % 32]!)
        const leafHash = hashOf(`leaf ${name}`)
        const count = (threads[job]?.count ?? 0) + 1
        threads[job] = { job, tag: hashOf(job).slice(0, 16), count, last: leafHash }
        const position = state.frontier.size + i
        const entry = { entryHash: hexOf(name), id: uuidOf(name), job, kind: 'remark.made', device: DEVICE }
        return {
          position,
          leaf,
          leafHash,
          ...entry,
          count,
          receivedAt: 1_795_000_000_000 + position,
          bytes: new TextEncoder().encode(name),
        }
      })
      const hashes = leaves.map((leaf) => leaf.leafHash)
      const frontier = appendAll(state.frontier, hashes, sha256)
      const device = appendAll(state.device, hashes, sha256)
      const changed = [...new Set(leaves.map((leaf) => leaf.job))]
      const rows: Append = {
        ...NOTHING,
        frontier,
        leaves,
        threads: changed.map((job) => threads[job]!),
        deviceLogs: leaves.length > 0 ? [{ device: DEVICE, epoch: 1, frontier: device }] : [],
        deviceLeaves: leaves.map((leaf, i) => ({
          device: DEVICE,
          epoch: 1,
          index: state.device.size + i,
          entryHash: leaf.entryHash,
        })),
        checkpoint: leaves.length > 0 ? checkpointOf(frontier) : undefined,
      }
      state = { frontier, threads, device }
      return rows
    },
  }
}

export type PenState = {
  readonly frontier: FrontierRow
  readonly threads: Readonly<Record<string, ThreadRow>>
  readonly device: FrontierRow
}

export const checkpointOf = (frontier: FrontierRow) => ({
  size: frontier.size,
  root: rootOf(frontier, sha256),
  note: `checkpoint at ${frontier.size}\n`,
})

export const headOf = (size: number, note: string, more: Partial<HeadRow> = {}): HeadRow => ({
  device: DEVICE,
  epoch: 1,
  size,
  root: hashOf(note),
  note,
  atSize: size,
  receivedAt: 1_795_000_000_000,
  disputed: false,
  ...more,
})
