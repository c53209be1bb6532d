import type { LogStore } from '../../../db/log-store/log-store.ts'
import { isUnread } from '../../domain/entry/read.ts'
import type { BodyOf } from '../../domain/entry/registry.ts'
import type { Subtree } from '../../domain/log/proof.ts'
import { inclusionProof } from '../../domain/log/proof.ts'
import { writeTlogProof } from '../../domain/log/proof-file.ts'
import type { ReadLeaf } from './collect.ts'

/** A stamp of a record: the entry that names it, the authority's response, and how far into the thread it reaches. */
export type RecordStamp = BodyOf<'checkpoint.stamped'> & {
  /** Hash (hex) of the entry `checkpoint.stamped`. */
  readonly entry: string
  /** Undefined where the response's bytes are lost: the entry stands all the same, and a checker says what is missing. */
  readonly response: Uint8Array | undefined
  readonly note: string | undefined
  /** Count of the last of the job's entries that the stamped state holds. */
  readonly upTo: number
  /** That entry's leaf in the stamped state: a whole tlog-proof file. */
  readonly proof: string | undefined
}

/**
 * For each of the job's entries the first stamp that came over it, so that the days on which the job was logged are
 * anchored, and not each later day of the company's. In order of size.
 */
export const chooseStamps = async (
  company: readonly ReadLeaf[],
  thread: readonly ReadLeaf[],
  tree: Subtree,
  store: LogStore,
  companyId: string,
): Promise<RecordStamp[]> => {
  const known = company
    .flatMap(({ entryHash, read }) =>
      read && !isUnread(read) && read.entry.kind === 'checkpoint.stamped'
        ? [{ entry: entryHash, ...read.entry.body }]
        : [],
    )
    .sort((a, b) => a.size - b.size)
  const firsts = new Set(thread.map(({ position }) => known.find(({ size }) => size > position)))
  const stamps: RecordStamp[] = []
  for (const stamp of known) {
    const last = firsts.has(stamp) ? thread.findLast(({ position }) => position < stamp.size) : undefined
    if (!last) continue
    const note = (await store.checkpointAt(companyId, stamp.size))?.note
    const path = inclusionProof(last.position, stamp.size, tree)
    stamps.push({
      ...stamp,
      response: (await store.stamp(companyId, stamp.token))?.bytes,
      note,
      upTo: last.count,
      proof: note === undefined ? undefined : writeTlogProof({ index: last.position, path, note }),
    })
  }
  return stamps
}
