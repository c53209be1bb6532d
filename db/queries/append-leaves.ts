import type { Lane } from '../connect/lane.ts'
import type { Append, DeviceLeafRow, LeafRow } from '../log-store/log-store.ts'
import { blobs, hexes, numbers, plain, texts } from './columns.ts'

/** Rows a statement: longer ones are no cheaper, and their memory counts on both sides. */
const AT_ONCE = 2000

/** The rows that come by the hundred, in raw SQL. */
export const appendLeaves = async (lane: Lane, company: string, rows: Append): Promise<void> => {
  for (const some of pieces(rows.leaves)) await insertLeaves(lane, company, some)
  for (const some of pieces(rows.deviceLeaves)) await insertDeviceLeaves(lane, company, some)
}

const insertLeaves = async (lane: Lane, company: string, leaves: readonly LeafRow[]): Promise<void> => {
  const column = <T>(pick: (leaf: LeafRow) => T): T[] => leaves.map(pick)
  await lane.run(
    (sql) => sql`
      insert into leaves
        (company, position, entry_hash, id, job, count, kind, device, received_at, leaf, leaf_hash, bytes)
      select ${company}::uuid, * from unnest(
        ${numbers(column((leaf) => leaf.position))}::text::bigint[],
        ${hexes(column((leaf) => leaf.entryHash))}::text::bytea[],
        ${plain(column((leaf) => leaf.id))}::text::uuid[],
        ${plain(column((leaf) => leaf.job))}::text::uuid[],
        ${numbers(column((leaf) => leaf.count))}::text::bigint[],
        ${texts(column((leaf) => leaf.kind))}::text::text[],
        ${plain(column((leaf) => leaf.device))}::text::uuid[],
        ${numbers(column((leaf) => leaf.receivedAt))}::text::bigint[],
        ${blobs(column((leaf) => leaf.leaf))}::text::bytea[],
        ${blobs(column((leaf) => leaf.leafHash))}::text::bytea[],
        ${blobs(column((leaf) => leaf.bytes))}::text::bytea[])`,
  )
}

const insertDeviceLeaves = async (
  lane: Lane,
  company: string,
  leaves: readonly DeviceLeafRow[],
): Promise<void> => {
  const column = <T>(pick: (leaf: DeviceLeafRow) => T): T[] => leaves.map(pick)
  await lane.run(
    (sql) => sql`
      insert into device_leaves (company, device, epoch, index, entry_hash)
      select ${company}::uuid, * from unnest(
        ${plain(column((leaf) => leaf.device))}::text::uuid[],
        ${numbers(column((leaf) => leaf.epoch))}::text::int[],
        ${numbers(column((leaf) => leaf.index))}::text::bigint[],
        ${hexes(column((leaf) => leaf.entryHash))}::text::bytea[])`,
  )
}

function* pieces<T>(rows: readonly T[]): Generator<readonly T[]> {
  for (let i = 0; i < rows.length; i += AT_ONCE) yield rows.slice(i, i + AT_ONCE)
}
