import * as z from 'zod/mini'
import { PHOTO_LENGTH, PHOTO_OFFSET, PHOTO_PART_BYTES } from '../../api/contract/messages/photo.ts'
import { toHex } from '../../api/domain/log/encoding.ts'
import { ask, type Refused, readAnswer } from './answer.ts'
import { type PhotoKept, partKey } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'

export type PhotosOutcome = {
  readonly sent: number
  readonly left: number
  /** Why the server takes none of them now. */
  readonly stopped?: Refused
}

/** The bytes do not hash to what was counted on: the phone's storage altered them. Nothing is called kept. */
export class PhotoNotKept extends Error {
  override readonly name = 'PhotoNotKept'
}

/**
 * Keeps a photo's bytes in pieces, reads them back and hashes them again before it returns: some phones have given
 * stored files back altered. Returns the SHA-256 (hex). The bytes are never re-encoded.
 */
export const keepPhoto = async (
  world: PhoneWorld,
  bytes: Uint8Array,
  type: string,
  /** In a browser its own hash, which leaves the page awake; a photo may have 64 MB. */
  sha256: (bytes: Uint8Array) => Uint8Array | Promise<Uint8Array> = world.sha256,
): Promise<string> => {
  const hash = toHex(await sha256(bytes))
  const parts = Math.max(1, Math.ceil(bytes.length / PHOTO_PART_BYTES))
  await world.store.transact(async (tx) => {
    for (let part = 0; part < parts; part++) {
      const piece = bytes.slice(part * PHOTO_PART_BYTES, (part + 1) * PHOTO_PART_BYTES)
      await tx.put('parts', partKey(hash, part), piece)
    }
    const known = await tx.get<PhotoKept>('photos', hash)
    await tx.put(
      'photos',
      hash,
      known ?? ({ hash, bytes: bytes.length, type, parts, sent: false } satisfies PhotoKept),
    )
  })
  if (toHex(await sha256(await readPhoto(world, hash))) !== hash) throw new PhotoNotKept()
  return hash
}

export const readPhoto = (world: PhoneWorld, hash: string): Promise<Uint8Array> =>
  world.store.transact(async (tx) => {
    const pieces = await tx.list<Uint8Array>('parts', partKey(hash, 0), `${hash}/~`)
    const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0))
    let at = 0
    for (const piece of pieces) {
      whole.set(piece, at)
      at += piece.length
    }
    return whole
  })

/** Sends each photo that the server lacks, from where it left off. Throws `WireDown`. */
export const sendPhotos = async (world: PhoneWorld): Promise<PhotosOutcome> => {
  const all = await world.store.transact((tx) => tx.list<PhotoKept>('photos'))
  const open = all.filter(isOpen)
  let sent = 0
  for (const photo of open) {
    const outcome = await sendPhoto(world, photo)
    if (outcome === 'sent') sent++
    else if (outcome !== 'left') return { sent, left: open.length - sent, stopped: outcome }
  }
  return { sent, left: open.length - sent }
}

/**
 * Not sent yet; or sent, and the log, which names it, never came to say that it arrived: the server was put back to a
 * time before it had it.
 */
const isOpen = (photo: PhotoKept): boolean =>
  photo.refused === undefined && (!photo.sent || (photo.named === true && photo.arrived !== true))

const anything = z.unknown()
/** More restarts than this within one round would be a server that leads us in circles. */
const MOST_RESTARTS = 3

const sendPhoto = async (world: PhoneWorld, photo: PhotoKept): Promise<'sent' | 'left' | Refused> => {
  const path = `/api/photos/${photo.hash}`
  for (let restart = 0; restart < MOST_RESTARTS; restart++) {
    const state = await ask(world, { method: 'GET', path: `${path}/held` })
    if (state.status !== 200) return 'left'
    let offset = Number(state.headers.get(PHOTO_OFFSET) ?? '0')
    const bytes = await readPhoto(world, photo.hash)
    let going = offset <= photo.bytes
    // Where the server holds every byte, an empty part asks it to hash and log them: only its answer says that it has.
    while (going) {
      const body = bytes.slice(offset, offset + PHOTO_PART_BYTES)
      const headers = {
        'content-type': photo.type,
        [PHOTO_OFFSET]: String(offset),
        [PHOTO_LENGTH]: String(photo.bytes),
      }
      const answer = await ask(world, { method: 'PUT', path, headers, body })
      if (answer.status === 200) {
        const held = Number(answer.headers.get(PHOTO_OFFSET) ?? Number.NaN)
        going = Number.isSafeInteger(held) && held > offset
        offset = held
        if (held === photo.bytes) {
          await markPhoto(world, photo.hash, { sent: true })
          return 'sent'
        }
      } else {
        const refusal = readAnswer(answer, anything)
        const code = refusal.ok ? 'unavailable' : refusal.refused.code
        if (!refusal.ok && code === 'log-stopped') return refusal.refused
        if (code === 'photo-too-large' || code === 'photo-kind') {
          await markPhoto(world, photo.hash, { refused: code })
          return 'left'
        }
        // The server holds other bytes, or another place, than we thought: ask it again.
        if (code !== 'photo-hash' && code !== 'photo-offset') return 'left'
        going = false
      }
    }
  }
  return 'left'
}

const markPhoto = (world: PhoneWorld, hash: string, mark: { sent?: true; refused?: string }): Promise<void> =>
  world.store.transact(async (tx) => {
    const photo = await tx.get<PhotoKept>('photos', hash)
    if (photo) await tx.put('photos', hash, { ...photo, ...mark })
  })
