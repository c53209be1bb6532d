import { toHex } from '../domain/log/encoding.ts'
import { type EntryFile, knownEntry } from './entries.ts'
import type { Finding } from './findings.ts'
import type { Thread } from './thread.ts'

/**
 * What became of one place of the thread: `holds` where its bytes, its place and its author were shown; `unread` the same
 * of an entry that this program is too old to read; `withheld` where the bytes are not here and place and hash remain;
 * `fails` where anything of it failed; `unplaced` where it fits its leaf, and the leaf itself was not shown to be in the log.
 */
export type ToldEntry = {
  readonly count: number
  readonly file: string
  readonly is: 'holds' | 'unread' | 'withheld' | 'fails' | 'unplaced'
  readonly kind?: string
  /** As the device wrote it. */
  readonly occurredAt?: string
  /** By the server's clock, ms. */
  readonly receivedAt?: number
}

export const tellEntries = (
  thread: Thread,
  entries: ReadonlyMap<number, EntryFile>,
  findings: readonly Finding[],
): ToldEntry[] => {
  const failed = new Set(findings.filter(({ code }) => code !== 'entry-unread').map(({ file }) => file))
  const photosOf = (file: EntryFile): string[] => {
    const entry = knownEntry(file)
    return entry?.kind === 'photo.taken' ? [entry.body.photo, ...(entry.evidence ?? [])] : []
  }
  const failedPhotos = new Set(
    [...failed].flatMap((name) => /^photos\/([0-9a-f]{64})\./.exec(name)?.[1] ?? []),
  )
  return thread.leaves.map((leaf, i): ToldEntry => {
    const count = i + 1
    const name = `entries/${String(count).padStart(6, '0')}.json`
    const file = entries.get(count)
    const hash = leaf && toHex(leaf.entryHash)
    const entry = file && knownEntry(file)
    const fails =
      failed.has(name) ||
      thread.wrong.has(count) ||
      (hash !== undefined && failed.has(`authors/${hash}.tlog-proof`)) ||
      (file !== undefined && photosOf(file).some((photo) => failedPhotos.has(photo)))
    const state = (): ToldEntry['is'] => {
      if (fails || !leaf) return 'fails'
      if (thread.lastIndex === undefined) return 'unplaced'
      if (!file) return 'withheld'
      return entry ? 'holds' : 'unread'
    }
    return {
      count,
      file: name,
      is: state(),
      ...(entry ? { kind: entry.kind, occurredAt: entry.occurredAt } : {}),
      ...(leaf ? { receivedAt: leaf.receivedAt } : {}),
    }
  })
}
