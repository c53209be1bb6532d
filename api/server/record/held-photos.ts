import { createHash } from 'node:crypto'
import type { PhotoFile } from '../../domain/record/photo-files.ts'
import type { Member } from './write-zip.ts'

/** A photo by its SHA-256 (hex); undefined where it is not held whole. */
export type OpenPhoto = (hash: string) => Promise<ReadableStream<Uint8Array> | undefined>

export type HeldPhoto = Exclude<Member, { readonly bytes: Uint8Array }> & { readonly sha256: string }

/**
 * The photos that are there and still have their hash. Each is read twice, here and into the ZIP: a photo that a disk
 * has spoiled must not go out under its name, and must not keep the rest of the record back.
 */
export const heldPhotos = async (photos: readonly PhotoFile[], open: OpenPhoto): Promise<HeldPhoto[]> => {
  const held: HeldPhoto[] = []
  for (const { hash, name } of photos) {
    const stream = await open(hash)
    const size = stream && (await sizeIfWhole(stream, hash))
    if (size !== undefined) held.push({ name, sha256: hash, size, open: () => openAgain(open, hash) })
  }
  return held
}

const sizeIfWhole = async (stream: ReadableStream<Uint8Array>, hash: string): Promise<number | undefined> => {
  const digest = createHash('sha256')
  let size = 0
  for await (const chunk of stream) {
    digest.update(chunk)
    size += chunk.length
  }
  return digest.digest('hex') === hash ? size : undefined
}

const openAgain = async (open: OpenPhoto, hash: string): Promise<ReadableStream<Uint8Array>> => {
  const stream = await open(hash)
  if (!stream) throw new Error(`the photo ${hash} went away while the record was made`)
  return stream
}
