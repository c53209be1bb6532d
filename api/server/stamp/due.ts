import type { CheckpointRow, LogStore } from '../../../db/log-store/log-store.ts'

const DAY_MS = 24 * 3600 * 1000
const PAGE = 256

/** The beginning of the day (UTC) in which a time lies. */
export const dayStart = (ms: number): number => ms - (ms % DAY_MS)

/**
 * The checkpoint that wants a stamp: the last one of the days that are over, if anything but stamps came into the log since
 * the last stamp. An older day that was missed is covered by it, since the log only grows.
 */
export const dueCheckpoint = async (
  store: LogStore,
  company: string,
  stamped: number,
  now: number,
): Promise<CheckpointRow | undefined> => {
  const checkpoint = await store.checkpointBefore(company, dayStart(now))
  if (!checkpoint || checkpoint.size <= stamped) return undefined
  for (let from = stamped; from < checkpoint.size; ) {
    const { leaves } = await store.page(company, from, PAGE)
    const fresh = leaves.some((leaf) => leaf.position < checkpoint.size && leaf.kind !== 'checkpoint.stamped')
    if (fresh) return checkpoint
    if (leaves.length === 0) return undefined
    from += leaves.length
  }
  return undefined
}
