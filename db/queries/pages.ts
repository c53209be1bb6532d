import { and, asc, desc, eq, gt, gte, lt, lte, type SQL } from 'drizzle-orm'
import type { Db } from '../connect/clients.ts'
import { isUuid } from '../log-store/check-append.ts'
import type { CheckpointRow, LogStore } from '../log-store/log-store.ts'
import { checkpoints, leaves } from '../schema/tables.ts'
import { toLeaf } from './rows.ts'

/** Checkpoints, and the pages that end at them. */
export const checkpointReaders = (
  db: Db,
): Pick<LogStore, 'page' | 'checkpointAt' | 'checkpointBefore' | 'newestCheckpoint'> => {
  const find = async (company: string, order: SQL, where?: SQL): Promise<CheckpointRow | undefined> => {
    const [row] = await db
      .select({ size: checkpoints.size, root: checkpoints.root, note: checkpoints.note })
      .from(checkpoints)
      .where(and(eq(checkpoints.company, company), where))
      .orderBy(order)
      .limit(1)
    return row
  }
  const { size } = checkpoints

  return {
    // Several statements are as good as one here: checkpoints and leaves never change, and a leaf is committed with
    // the checkpoint that covers it. So the checkpoint is chosen first, and then the leaves that it covers.
    page: async (company, from, limit) => {
      if (!isUuid(company)) return { leaves: [], checkpoint: undefined }
      const end =
        (await find(company, desc(size), and(gt(size, from), lte(size, from + limit)))) ??
        (await find(company, asc(size), gt(size, from)))
      // Bounded, or a commit that came in between would show its checkpoint without its leaves.
      if (!end) return { leaves: [], checkpoint: await find(company, desc(size), lte(size, from)) }
      const rows = await db
        .select()
        .from(leaves)
        .where(and(eq(leaves.company, company), gte(leaves.position, from), lt(leaves.position, end.size)))
        .orderBy(asc(leaves.position))
      return { leaves: rows.map(toLeaf), checkpoint: end }
    },
    checkpointAt: async (company, at) =>
      isUuid(company) ? find(company, desc(size), eq(size, at)) : undefined,
    checkpointBefore: async (company, time) => {
      if (!isUuid(company)) return undefined
      // From the end backward: only what came since is looked at, and no index is needed.
      const [last] = await db
        .select({ position: leaves.position })
        .from(leaves)
        .where(and(eq(leaves.company, company), lt(leaves.receivedAt, time)))
        .orderBy(desc(leaves.position))
        .limit(1)
      return last && find(company, desc(size), lte(size, last.position + 1))
    },
    newestCheckpoint: async (company) => (isUuid(company) ? find(company, desc(size)) : undefined),
  }
}
