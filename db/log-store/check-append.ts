import { isHash } from '../../api/domain/log/encoding.ts'
import { isFrontier } from '../../api/domain/log/tree.ts'
import type { Append, DeviceLeafRow, FrontierRow } from './log-store.ts'

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/

/** Lower case with hyphens: one spelling, so that both stores find the same row by the same text. */
export const isUuid = (text: string): boolean => UUID.test(text)

/**
 * What an append must hold before either store takes it; a failure is a bug of the caller, so it throws. It guards
 * what a row's key can't: positions without gaps, a signed checkpoint at the end, device logs without gaps.
 */
export const checkAppend = (before: FrontierRow, rows: Append): void => {
  const after = rows.frontier.size
  must(isFrontier(rows.frontier), 'the frontier has not the peaks of its size')
  must(
    after === before.size + rows.leaves.length,
    `${rows.leaves.length} leaves lead from ${before.size} to ${after}`,
  )
  must(rows.leaves.length === 0 || rows.checkpoint !== undefined, 'leaves come without a checkpoint')
  must(rows.checkpoint === undefined || rows.checkpoint.size === after, 'the checkpoint is of another size')
  rows.leaves.forEach((leaf, i) => {
    must(leaf.position === before.size + i, `position ${leaf.position} is not ${before.size + i}`)
    must(isHash(leaf.entryHash), 'an entry hash is not 64 hex digits')
    must(isUuid(leaf.id) && isUuid(leaf.job) && isUuid(leaf.device), 'an id is no UUID')
  })
  const ends = new Map(rows.leaves.map((leaf) => [leaf.job, leaf.count]))
  for (const { job, count } of rows.threads)
    must(ends.get(job) === count, 'a thread does not end at its last leaf')
  for (const log of rows.deviceLogs)
    must(isFrontier(log.frontier), 'a device log has not the peaks of its size')
  for (const run of deviceRuns(rows)) {
    const first = run.leaves[0]?.index
    must(
      run.leaves.every((leaf, i) => leaf.index === first! + i),
      'device leaves come with a gap',
    )
    must(first === undefined || first === run.from, 'device leaves do not lead to the size of their log')
  }
}

/** The appended leaves of one device log, with the size that it must have had before. */
export type DeviceRun = {
  readonly device: string
  readonly epoch: number
  readonly from: number
  readonly leaves: readonly DeviceLeafRow[]
}

/** One run for each device log of the append. Leaves of a log that the append doesn't move forward are a bug. */
export const deviceRuns = (rows: Pick<Append, 'deviceLogs' | 'deviceLeaves'>): DeviceRun[] => {
  const runs = rows.deviceLogs.map(({ device, epoch, frontier }) => {
    const leaves = rows.deviceLeaves.filter((leaf) => leaf.device === device && leaf.epoch === epoch)
    return { device, epoch, from: frontier.size - leaves.length, leaves }
  })
  const held = runs.reduce((sum, run) => sum + run.leaves.length, 0)
  must(held === rows.deviceLeaves.length, 'device leaves come without their log, or a log comes twice')
  return runs
}

function must(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(`append: ${what}`)
}
