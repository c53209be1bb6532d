import type { BodyOf } from '../../api/domain/entry/registry.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import { readPhotoFile } from '../device/camera.ts'
import { sha256OfFile } from '../device/sha256.ts'
import { keepPhoto } from '../sync/photos.ts'
import type { Phone } from './phone.ts'

/** What is said of each photo of one pick. */
export type PhotoSaid = Pick<BodyOf<'photo.taken'>, 'shows' | 'load' | 'part' | 'where'>

export type PhotoTrouble = 'photo-too-large' | 'photo-kind'
/** A file that was not taken, by its name, and why. */
export type PhotoRefused = { readonly file: string; readonly trouble: PhotoTrouble }

/**
 * Keeps each file's bytes, then logs it: one after the other, so that the memory holds one photo. A file that can't be
 * kept stands in no other's way. Says of each whether it was logged, through `onKept`.
 */
export const keepPhotos = async (
  { keep, log, world }: Pick<Phone, 'keep' | 'log' | 'world'>,
  job: string,
  files: readonly File[],
  said: PhotoSaid,
  occurredAt: LocalTime,
  onKept: (count: number) => void,
): Promise<readonly PhotoRefused[]> => {
  const refused: PhotoRefused[] = []
  let kept = 0
  for (const file of files) {
    const read = await keep(() => readPhotoFile(file))
    if (read && !read.ok) refused.push({ file: file.name, trouble: read.problem.code })
    if (!read?.ok) continue
    const { bytes, type } = read.value
    const photo = await keep(() => keepPhoto(world, bytes, type, sha256OfFile))
    if (photo === undefined) continue
    const body = { photo, bytes: bytes.length, type, ...said }
    if (await log({ job, kind: 'photo.taken', body, occurredAt, source: 'photo', evidence: [photo] }))
      onKept(++kept)
  }
  return refused
}
