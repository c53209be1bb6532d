import type { CheckpointRow, HeadRow, LogStore } from '../log-store/log-store.ts'
import {
  copyBytes,
  copyCheckpoint,
  copyCompany,
  copyHead,
  copyLeaf,
  copySetAside,
  copyStamp,
} from './copies.ts'
import { logKey, type Rows } from './rows.ts'

/** Reads of what is committed. Each answers in one step, so it sees whole transactions only. */
export const readersOf = (companies: ReadonlyMap<string, Rows>): Omit<LogStore, 'transact' | 'onCommit'> => {
  const leavesOf = (company: string) => companies.get(company)?.many.leaves.get('') ?? []
  const checkpoint = (rows: Rows | undefined, size: number | undefined): CheckpointRow | undefined => {
    const row = size === undefined ? undefined : rows?.one.checkpoints.get(size)
    return row && copyCheckpoint(row)
  }
  const sizesOf = (rows: Rows | undefined) => rows?.many.checkpointSizes.get('') ?? []

  return {
    companies: async () => [...companies.keys()].sort(),
    company: async (company) => {
      const row = companies.get(company)?.company
      return row && copyCompany(row)
    },
    page: async (company, from, limit) => {
      const rows = companies.get(company)
      const sizes = sizesOf(rows)
      const end = pageEnd(sizes, from, limit)
      const leaves = end === undefined ? [] : leavesOf(company).slice(from, end).map(copyLeaf)
      return { leaves, checkpoint: checkpoint(rows, end ?? sizes.at(-1)) }
    },
    checkpointAt: async (company, size) => checkpoint(companies.get(company), size),
    checkpointBefore: async (company, time) => {
      const rows = companies.get(company)
      const end = leavesOf(company).findLastIndex((leaf) => leaf.receivedAt < time) + 1
      return checkpoint(
        rows,
        sizesOf(rows).findLast((size) => size <= end),
      )
    },
    stamp: async (company, token) => {
      const row = companies.get(company)?.one.stamps.get(token)
      return row && copyStamp(row)
    },
    newestCheckpoint: async (company) =>
      checkpoint(companies.get(company), sizesOf(companies.get(company)).at(-1)),
    thread: async (company, job, upTo = Number.POSITIVE_INFINITY) =>
      (companies.get(company)?.many.byJob.get(job) ?? [])
        .filter((leaf) => leaf.position < upTo)
        .map(copyLeaf),
    threads: async (company) =>
      [...(companies.get(company)?.many.byJob ?? [])]
        .map(([job, leaves]) => ({ job, count: leaves.length, lastPosition: leaves.at(-1)!.position }))
        .sort((a, b) => b.lastPosition - a.lastPosition),
    leafHashes: async (company, size) =>
      leavesOf(company)
        .slice(0, size)
        .map((leaf) => copyBytes(leaf.leafHash)),
    deviceLeaves: async (company, device, epoch, size) =>
      (companies.get(company)?.many.deviceLeaves.get(logKey(device, epoch)) ?? []).slice(0, size),
    deviceIndexOf: async (company, hashes) =>
      [...new Set(hashes)]
        .flatMap((hash) => companies.get(company)?.many.whereOnDevice.get(hash) ?? [])
        .map((row) => ({ ...row })),
    heads: async (company) =>
      [...(companies.get(company)?.one.heads.values() ?? [])].sort(byDevice).map(copyHead),
    blob: async (company, hash) => {
      const row = companies.get(company)?.one.blobs.get(hash)
      return row && { ...row }
    },
    setAside: async (company, device) =>
      [...(companies.get(company)?.many.asideOf.get(device) ?? [])]
        .sort((a, b) => a.receivedAt - b.receivedAt || compare(a.entryHash, b.entryHash))
        .map(copySetAside),
  }
}

const byDevice = (a: HeadRow, b: HeadRow): number =>
  compare(a.device, b.device) ||
  a.epoch - b.epoch ||
  a.size - b.size ||
  a.receivedAt - b.receivedAt ||
  compare(a.note, b.note)

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** The last size at or below `from + limit`, else the first beyond `from`; undefined where none lies beyond it. */
const pageEnd = (sizes: readonly number[], from: number, limit: number): number | undefined => {
  const beyond = firstBeyond(sizes, from)
  const past = firstBeyond(sizes, from + limit)
  return past > beyond ? sizes[past - 1] : sizes[beyond]
}

/** Index of the first size greater than the bound; sizes only grow. */
const firstBeyond = (sizes: readonly number[], bound: number): number => {
  let low = 0
  let high = sizes.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (sizes[middle]! > bound) high = middle
    else low = middle + 1
  }
  return low
}
