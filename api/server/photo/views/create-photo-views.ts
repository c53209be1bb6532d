import {
  type PhotoDrawing,
  type PhotoPosition,
  type PhotoView,
  photoPosition,
  photoView,
} from '../../../contract/messages/photo-view.ts'
import { readUtf8, toUtf8 } from '../../../domain/log/encoding.ts'
import { NO_TAGS, readExifFacts } from '../exif/exif-facts.ts'
import { kindOfPhoto } from '../kind-of-photo.ts'
import type { PhotoStore } from '../photo-store.ts'
import type { Drawn } from './draw.ts'
import type { MadeName, MadeStore } from './made-store.ts'
import { type PhotoViews, VIEW_VERSION } from './photo-views.ts'
import { createPlaces, type Place } from './places.ts'
import { CHILD_LIMITS, type ChildEnd, type ChildLimits, type ChildStep, runChild } from './run-child.ts'

/** A photo costs a core for half a second: one at a time leaves the other cores to those who wait for an answer. */
const PLACES = 1
/** As many may wait; photos that came while more did are made when they are asked for. */
const MOST_WAITING = 500

/** The views over the originals and a store of what was made; each is made in a child process of its own. */
export const createPhotoViews = (given: {
  readonly photos: Pick<PhotoStore, 'open'>
  readonly made: MadeStore
  readonly limits?: ChildLimits
  readonly mostWaiting?: number
  /** Another child program, for tests of what a child may do. */
  readonly child?: string
}): PhotoViews => {
  const { photos, made, limits = CHILD_LIMITS, mostWaiting = MOST_WAITING, child } = given
  const places = createPlaces(PLACES, mostWaiting)
  const closing = new AbortController()
  const making = new Map<string, Place<PhotoView | 'busy' | undefined>>()

  const kept = async (company: string, photo: string): Promise<PhotoView | undefined> =>
    readJson(await made.get(company, photo, 'view'), photoView)

  const make = async (company: string, photo: string): Promise<PhotoView | 'busy' | undefined> => {
    // Another process, or the one before in the line, may have made it.
    const there = await kept(company, photo)
    if (there) return there
    const run = async (steps: readonly ChildStep[]): Promise<ChildEnd | undefined> => {
      if (closing.signal.aborted) return { ended: 'stopped' }
      const original = await photos.open(company, photo)
      return (
        original &&
        runChild({ hash: photo, stream: original.stream }, steps, { limits, stop: closing.signal, child })
      )
    }
    const kind = await kindOf(photos, company, photo)
    const canDraw = kind !== 'image/heic'
    const first = await run(canDraw ? ['tags', 'draw'] : ['tags'])
    if (!first || first.ended === 'differs') return undefined
    if (isNotTried(first)) return 'busy'
    // The tags broke it: the picture gets its own try.
    const second = canDraw && !first.tags ? await run(['draw']) : first
    if (!second || isNotTried(second)) return 'busy'
    const drawing = canDraw ? toDrawing(second) : ({ is: 'cannot-draw', kind: 'image/heic' } as const)
    const { facts, position } = readExifFacts(first.tags ?? NO_TAGS)
    const view: PhotoView = { version: VIEW_VERSION, facts, drawing }
    await made.put(company, photo, filesOf(view, position, second.drawn))
    return view
  }

  /** Once for all who ask while it is made. */
  const wait = (
    company: string,
    photo: string,
    line: 'ahead' | 'behind',
  ): Promise<PhotoView | 'busy' | undefined> => {
    const key = `${company}/${photo}`
    const under = making.get(key)
    if (under) {
      if (line === 'ahead') under.hurry()
      return under.done
    }
    const place = closing.signal.aborted ? undefined : places.take(() => make(company, photo), line)
    if (!place) return Promise.resolve('busy')
    const done = place.done.finally(() => making.delete(key))
    making.set(key, { ...place, done })
    return done
  }

  const view: PhotoViews['view'] = async (company, photo) =>
    (await kept(company, photo)) ?? wait(company, photo, 'ahead')

  return {
    arrived: (company, photo) => {
      wait(company, photo, 'behind').catch(() => {})
    },
    view,
    position: async (company, photo) => readJson(await made.get(company, photo, 'position'), photoPosition),
    rendition: async (company, photo, size) => {
      const seen = await view(company, photo)
      if (seen === 'busy' || seen?.drawing.is !== 'drawn') return seen === 'busy' ? 'busy' : undefined
      return made.get(company, photo, size)
    },
    drop: () => made.drop(),
    close: async () => {
      closing.abort()
      await Promise.allSettled([...making.values()].map(({ done }) => done))
    },
  }
}

const isNotTried = ({ ended }: ChildEnd): boolean => ended === 'unread' || ended === 'stopped'

const kindOf = async (photos: Pick<PhotoStore, 'open'>, company: string, photo: string) => {
  const original = await photos.open(company, photo)
  if (!original) return undefined
  const reader = original.stream.getReader()
  const { value } = await reader.read()
  await reader.cancel().catch(() => {})
  return kindOfPhoto(value ?? new Uint8Array())
}

const toDrawing = ({ drawn, ended }: ChildEnd): PhotoDrawing => {
  if (drawn?.is === 'drawn') {
    const { small, large } = drawn
    if (!isJpeg(small.jpeg) || !isJpeg(large.jpeg)) return { is: 'failed', why: 'crashed' }
    return { is: 'drawn', small: sizeOf(small), large: sizeOf(large) }
  }
  if (drawn) return drawn
  return { is: 'failed', why: ended === 'time' || ended === 'memory' ? ended : 'crashed' }
}

const sizeOf = ({ width, height, jpeg }: { width: number; height: number; jpeg: Uint8Array }) => ({
  width,
  height,
  bytes: jpeg.length,
})

const isJpeg = (bytes: Uint8Array): boolean => kindOfPhoto(bytes.subarray(0, 16)) === 'image/jpeg'

const filesOf = (
  view: PhotoView,
  position: PhotoPosition,
  drawn: Drawn | undefined,
): ReadonlyMap<MadeName, Uint8Array> => {
  const files = new Map<MadeName, Uint8Array>([
    ['position', toUtf8(JSON.stringify(position))],
    ['view', toUtf8(JSON.stringify(view))],
  ])
  if (view.drawing.is !== 'drawn' || drawn?.is !== 'drawn') return files
  return files.set('small', drawn.small.jpeg).set('large', drawn.large.jpeg)
}

/** A file that a power cut or an older program left is as good as none. */
const readJson = <T>(
  bytes: Uint8Array | undefined,
  schema: { safeParse(value: unknown): { success: boolean; data?: T | undefined } },
): T | undefined => {
  if (!bytes) return undefined
  try {
    const read = schema.safeParse(JSON.parse(readUtf8(bytes) ?? ''))
    return read.success ? read.data : undefined
  } catch {
    return undefined
  }
}
