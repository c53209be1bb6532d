import type { Entry } from '../domain/entry/envelope.ts'
import { hashEntry, isUnread, type ReadEntry, readEntry } from '../domain/entry/read.ts'
import { readPlain } from '../domain/log/bytes.ts'
import { toHex } from '../domain/log/encoding.ts'
import { readSlot } from '../domain/record/read-slot.ts'
import { type Context, namesOf } from './context.ts'
import type { Thread } from './thread.ts'

/** An entry's file as read: `read` is undefined where its bytes are out of form. */
export type EntryFile = {
  readonly name: string
  readonly hash: string
  readonly read: ReadEntry | undefined
  /** From the bytes even where the kind or the release is unknown (L9). */
  readonly device: string | undefined
}

export const knownEntry = (file: EntryFile): Entry | undefined =>
  file.read && !isUnread(file.read) ? file.read.entry : undefined

/** What is known of an entry from elsewhere: its thread's id, and the hash (hex) that is committed to in its place. */
export type Committed = { readonly thread: string | undefined; readonly hash: string | undefined }

/** L1–L9 of one entry; `entry-unread` (L44) only where its hash holds, since else nobody knows what stood there. */
export const checkEntryBytes = (
  { report, senses }: Context,
  name: string,
  bytes: Uint8Array,
  committed: Committed,
): EntryFile => {
  const { thread } = committed
  const hash = hashEntry(bytes, senses.sha256)
  const result = readEntry(bytes, senses.sha256)
  const read = readSlot(bytes, senses.sha256)
  const plain = readPlain(bytes)
  const value: { readonly [name: string]: unknown } =
    plain.ok && typeof plain.value === 'object' ? { ...plain.value } : {}
  if (read && isUnread(read)) {
    if (committed.hash === undefined || committed.hash === hash)
      report('entry-unread', name, 'this checker cannot read what it says; its place and hash are checked')
  } else if (!result.ok)
    report(
      'entry-malformed',
      name,
      `its bytes are out of form (${result.problem.code}${result.problem.at && ` at ${result.problem.at}`})`,
    )
  if (thread !== undefined && typeof value.job === 'string' && value.job !== thread)
    report('entry-thread', name, 'it is of another thread')
  return {
    name,
    hash,
    read,
    device: typeof value.device === 'string' ? value.device : undefined,
  }
}

/** L41.4: the thread's entries by their count. One that is absent is withheld, not lost from sight (L43). */
export const checkEntries = async (
  context: Context,
  thread: Thread,
  job: string | undefined,
): Promise<ReadonlyMap<number, EntryFile>> => {
  const entries = new Map<number, EntryFile>()
  for (const { name, found } of namesOf(context, /^entries\/(\d{6})\.json$/)) {
    const count = Number(found)
    const bytes = (await context.archive.bytes(name))!
    const leaf = thread.leaves[count - 1]
    const hash = leaf && toHex(leaf.entryHash)
    const file = checkEntryBytes(context, name, bytes, { thread: job, hash })
    if (count < 1 || count > thread.leaves.length) {
      context.report('file-unlisted', name, 'the thread has no leaf of this count')
      continue
    }
    if (hash !== undefined && hash !== file.hash)
      context.report(
        'entry-differs',
        name,
        `its bytes are not those that line ${count} of thread.txt commits to`,
      )
    entries.set(count, file)
  }
  return entries
}
