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

/** L1–L9 and L44 of one entry; `thread` is the id that its `job` must bear. */
export const checkEntryBytes = (
  { report, senses }: Context,
  name: string,
  bytes: Uint8Array,
  thread: string | undefined,
): EntryFile => {
  const result = readEntry(bytes, senses.sha256)
  const read = readSlot(bytes, senses.sha256)
  const plain = readPlain(bytes)
  const value: { readonly [name: string]: unknown } =
    plain.ok && typeof plain.value === 'object' ? { ...plain.value } : {}
  if (read && isUnread(read))
    report('entry-unread', name, 'this checker cannot read what it says; its place and hash are checked')
  else if (!result.ok)
    report(
      'entry-malformed',
      name,
      `its bytes are out of form (${result.problem.code}${result.problem.at && ` at ${result.problem.at}`})`,
    )
  if (thread !== undefined && typeof value.job === 'string' && value.job !== thread)
    report('entry-thread', name, 'it is of another thread')
  return {
    name,
    hash: hashEntry(bytes, senses.sha256),
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
    const file = checkEntryBytes(context, name, bytes, job)
    const leaf = thread.leaves[count - 1]
    if (count < 1 || count > thread.leaves.length) {
      context.report('file-unlisted', name, 'the thread has no leaf of this count')
      continue
    }
    if (leaf && toHex(leaf.entryHash) !== file.hash)
      context.report(
        'entry-differs',
        name,
        `its bytes are not those that line ${count} of thread.txt commits to`,
      )
    entries.set(count, file)
  }
  return entries
}
