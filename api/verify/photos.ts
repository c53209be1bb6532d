import type { Context } from './context.ts'
import { type EntryFile, knownEntry } from './entries.ts'

/** L41.9. Gives the SHA-256 of each photo file. */
export const checkPhotos = (
  { archive, report }: Context,
  entries: ReadonlyMap<number, EntryFile>,
  withheld: ReadonlySet<string>,
): ReadonlySet<string> => {
  const known = [...entries.values()].flatMap((file) => {
    const entry = knownEntry(file)
    return entry ? [{ name: file.name, entry }] : []
  })
  const taken = known.flatMap(({ name, entry }) =>
    entry.kind === 'photo.taken'
      ? [{ name, photos: new Set([entry.body.photo, ...(entry.evidence ?? [])]) }]
      : [],
  )
  const received = new Set(
    known.flatMap(({ entry }) => (entry.kind === 'photo.received' ? [entry.body.photo] : [])),
  )
  const held = new Set<string>()
  for (const name of archive.names) {
    if (!name.startsWith('photos/')) continue
    const hash = archive.hashOf(name)!
    held.add(hash)
    if (/^photos\/([0-9a-f]{64})\.[a-z0-9]+$/.exec(name)?.[1] !== hash)
      report('photo-differs', name, 'its name is not the SHA-256 of its bytes')
    else if (withheld.size === 0 && !taken.some(({ photos }) => photos.has(hash)))
      report('file-unlisted', name, 'no entry of this record names it')
  }
  for (const { name, photos } of taken)
    for (const photo of photos)
      if (received.has(photo) && !held.has(photo))
        report('photo-missing', name, `its photo ${photo} is not in the record`)
  return held
}
