import type { CheckpointRow, HeadRow, LeafRow, LogStore } from '../../../db/log-store/log-store.ts'
import { isUnread, type ReadEntry } from '../../domain/entry/read.ts'
import { readHead } from '../../domain/log/device-log.ts'
import { readHex, toUtf8 } from '../../domain/log/encoding.ts'
import { readNote } from '../../domain/log/note.ts'
import { consistencyProof, inclusionProof, subtrees } from '../../domain/log/proof.ts'
import { writeConsistency, writeTlogProof } from '../../domain/log/proof-file.ts'
import type { AuthorProof } from '../../domain/record/heads.ts'
import { readSlot } from '../../domain/record/read-slot.ts'
import { isScoped, type RecordRequest } from '../../domain/record/request.ts'
import { leftOut, type ScopeProblem } from '../../domain/record/scope.ts'
import { fail, ok, type Result } from '../../domain/result.ts'
import { sha256 } from '../senses.ts'
import { chooseHeads } from './choose-heads.ts'
import { chooseStamps, type RecordStamp } from './choose-stamps.ts'
import { quoteCompany } from './quote-company.ts'

/** A leaf of the log with its entry as far as it can be read. */
export type ReadLeaf = LeafRow & { readonly read: ReadEntry | undefined }

/** All that a record takes out of the log, as of one checkpoint; texts are whole files. */
export type Collected = {
  readonly origin: string
  readonly checkpoint: CheckpointRow
  /** Time of receipt of the checkpoint's last leaf, ms. */
  readonly made: number
  readonly thread: readonly ReadLeaf[]
  readonly threadProof: string
  readonly company: readonly (ReadLeaf & { readonly proof: string })[]
  readonly authors: readonly (AuthorProof & { readonly text: string })[]
  readonly earlier: readonly {
    readonly size: number
    readonly consistency: string
    readonly note: string | undefined
  }[]
  readonly stamps: readonly RecordStamp[]
}

export type CollectRequest = {
  readonly store: LogStore
  readonly company: string
  readonly job: string
  /** As of this signed checkpoint; the newest where undefined. */
  readonly checkpointSize?: number | undefined
  /** Sizes of slips that the record is to agree with, beside those that its devices have seen. */
  readonly slipSizes?: readonly number[]
  /** What the record is to be of, and what it keeps back; the whole job where undefined. */
  readonly scope?: RecordRequest | undefined
}

export type CollectProblem = 'not-found' | 'checkpoint-unknown' | ScopeProblem

/** Reads the log; nothing that came after the checkpoint has any part in the answer. */
export const collect = async (request: CollectRequest): Promise<Result<Collected, CollectProblem>> => {
  const { store, company, job, checkpointSize } = request
  const row = await store.company(company)
  const checkpoint =
    checkpointSize === undefined
      ? await store.newestCheckpoint(company)
      : await store.checkpointAt(company, checkpointSize)
  if (!row || job === company) return fail('not-found', 'job')
  if (!checkpoint || checkpoint.size === 0) return fail('checkpoint-unknown', 'checkpoint')
  const { size } = checkpoint
  const whole = (await store.thread(company, job, size)).map(readLeaf)
  const scoped = inScope(job, whole, request.scope)
  if (!scoped.ok) return scoped
  const thread = scoped.value
  const last = thread.at(-1)
  const newest = (await store.page(company, size - 1, 1)).leaves[0]
  if (!last || !newest) return fail('not-found', 'job')

  const affairs = (await store.thread(company, company, size)).map(readLeaf)
  const tree = subtrees(await store.leafHashes(company, size), sha256)
  const stamps = await chooseStamps(affairs, thread, tree, store, company)
  const quoted = quoteCompany(affairs, thread, new Set(stamps.map(({ entry }) => entry)))
  const proofOf = ({ position }: LeafRow): string =>
    writeTlogProof({ index: position, path: inclusionProof(position, size, tree), note: checkpoint.note })

  const authors = await proveAuthors(request, checkpoint, newest.receivedAt, [...thread, ...quoted])
  const stampedSizes = stamps.map((stamp) => stamp.size)
  const sizes = [...authors.map(({ head }) => head.seen.size), ...stampedSizes, ...(request.slipSizes ?? [])]
  const earlier = [...new Set(sizes)].filter((s) => s > 0 && s < size).sort((a, b) => a - b)
  const seen = new Set([...authors.map(({ head }) => head.seen.size), ...stampedSizes])
  return ok({
    origin: row.origin,
    checkpoint,
    made: newest.receivedAt,
    thread,
    threadProof: proofOf(last),
    company: quoted.map((leaf) => ({ ...leaf, proof: proofOf(leaf) })),
    authors,
    earlier: await Promise.all(
      earlier.map(async (old) => ({
        size: old,
        consistency: writeConsistency({
          old: { size: old, root: tree(0, old) },
          new: { size, root: checkpoint.root },
          path: consistencyProof(old, size, tree),
        }),
        note: seen.has(old) ? (await store.checkpointAt(company, old))?.note : undefined,
      })),
    ),
    stamps,
  })
}

/** The thread with the bytes of what is left out taken off: their leaves stay. */
const inScope = (
  job: string,
  thread: readonly ReadLeaf[],
  request: RecordRequest | undefined,
): Result<readonly ReadLeaf[], ScopeProblem> => {
  if (!request || (!isScoped(request) && request.withhold.length === 0)) return ok(thread)
  const known = thread.flatMap(({ read }) => (read && !isUnread(read) ? [read] : []))
  const out = leftOut(job, known, request)
  if (!out.ok) return out
  // What can't be read can't be known to be none of what is kept back.
  const isOut = ({ entryHash, read }: ReadLeaf) =>
    out.value.has(entryHash) || (read !== undefined && isUnread(read))
  return ok(thread.map((leaf) => (isOut(leaf) ? { ...leaf, bytes: undefined, read: undefined } : leaf)))
}

const readLeaf = (leaf: LeafRow): ReadLeaf => ({
  ...leaf,
  read: leaf.bytes && readSlot(leaf.bytes, sha256),
})

/** Each entry in its device's tree, under the newest head which that device had signed as of the checkpoint. */
const proveAuthors = async (
  { store, company }: CollectRequest,
  checkpoint: CheckpointRow,
  made: number,
  leaves: readonly ReadLeaf[],
): Promise<Collected['authors']> => {
  const places = await store.deviceIndexOf(
    company,
    leaves.map((leaf) => leaf.entryHash),
  )
  const chosen = chooseHeads(leaves, places, await store.heads(company), checkpoint.size, made)
  const proofs: Collected['authors'][number][] = []
  for (const { row, entries } of chosen) {
    const head = headOf(row)
    const own = await store.deviceLeaves(company, row.device, row.epoch, row.size)
    const tree = subtrees(
      own.map((hash) => readHex(hash)!),
      sha256,
    )
    for (const { entryHash, index } of entries) {
      const path = inclusionProof(index, row.size, tree)
      proofs.push({ entry: entryHash, index, head, text: writeTlogProof({ index, path, note: row.note }) })
    }
  }
  return proofs
}

/** The server verified this note before it stored it; another form now means a damaged database. */
const headOf = (row: HeadRow): AuthorProof['head'] => {
  const note = readNote(toUtf8(row.note))
  const head = note.ok ? readHead(note.value.text) : note
  if (!head.ok) throw new Error(`the head of ${row.device}, size ${row.size}, can't be read back`)
  return head.value
}
