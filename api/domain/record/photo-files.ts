import { isUnread, type ReadEntry } from '../entry/read.ts'
import type { PhotoModel } from './load-model.ts'

const EXTENSIONS: Readonly<Record<PhotoModel['type'], string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/heic': 'heic',
}

/** A photo that belongs in a record: taken by an entry of the thread, and received by another. */
export type PhotoFile = { readonly hash: string; readonly name: string }

/**
 * The photo files of a thread, in its order. Entries that no longer stand count too: nothing is left out for having
 * been corrected. A photo whose arrival is not in the thread is not in the record, so that the bytes depend on the log.
 */
export const photoFiles = (thread: readonly (ReadEntry | undefined)[]): PhotoFile[] => {
  const known = thread.flatMap((read) => (read && !isUnread(read) ? [read.entry] : []))
  const received = new Set(known.flatMap((e) => (e.kind === 'photo.received' ? [e.body.photo] : [])))
  const files = new Map<string, PhotoFile>()
  for (const entry of known) {
    if (entry.kind !== 'photo.taken' || !received.has(entry.body.photo) || files.has(entry.body.photo))
      continue
    const hash = entry.body.photo
    files.set(hash, { hash, name: `photos/${hash}.${EXTENSIONS[entry.body.type]}` })
  }
  return [...files.values()]
}
