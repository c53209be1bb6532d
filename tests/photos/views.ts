import { toHex } from '../../api/domain/log/encoding.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import type { PhotoStore } from '../../api/server/photo/photo-store.ts'
import { createPhotoViews } from '../../api/server/photo/views/create-photo-views.ts'
import { createMadeMemory } from '../../api/server/photo/views/made-memory.ts'
import { sha256 } from '../../api/server/senses.ts'

export const COMPANY = '019db000-0000-7000-8000-0000000000c0'
const DEVICE = '019db000-0000-7000-8000-0000000000d0'

export const nameOf = (bytes: Uint8Array): string => toHex(sha256(bytes))

type Given = Omit<Parameters<typeof createPhotoViews>[0], 'photos' | 'made'>

/** Photo views over a store in memory that tells how often an original was opened. */
export const openViews = (given: Given = {}) => {
  const store = createPhotoMemory(sha256)
  const made = createMadeMemory()
  let opened = 0
  const open: PhotoStore['open'] = (company, photo) => {
    opened++
    return store.open(company, photo)
  }
  const views = createPhotoViews({ photos: { open }, made, ...given })
  const add = async (bytes: Uint8Array): Promise<string> => {
    const photo = nameOf(bytes)
    if (await store.open(COMPANY, photo)) return photo
    await store.write(COMPANY, photo, DEVICE, 0, bytes)
    await store.finish(COMPANY, photo, DEVICE)
    return photo
  }
  /** What is made of these bytes, all of it. */
  const look = async (bytes: Uint8Array) => {
    const photo = await add(bytes)
    const view = await views.view(COMPANY, photo)
    if (!view || view === 'busy') throw new Error(`no view: ${view}`)
    const position = await views.position(COMPANY, photo)
    if (!position) throw new Error('no position')
    return { photo, view, position }
  }
  const rendition = async (photo: string, size: 'small' | 'large'): Promise<Uint8Array> => {
    const jpeg = await views.rendition(COMPANY, photo, size)
    if (!jpeg || jpeg === 'busy') throw new Error(`no rendition: ${jpeg}`)
    return jpeg
  }
  const original = async (photo: string) => {
    const file = await store.open(COMPANY, photo)
    return file && new Uint8Array(await new Response(file.stream).arrayBuffer())
  }
  return { views, made, store, add, look, rendition, original, opened: () => opened }
}
