import type { Context } from 'hono'
import { createTurns } from '../../../db/log-store/turns.ts'
import {
  MAX_PHOTO_BYTES,
  PHOTO_LENGTH,
  PHOTO_OFFSET,
  PHOTO_PART_BYTES,
} from '../../contract/messages/photo.ts'
import { readSize } from '../../domain/log/checkpoint.ts'
import { isHash } from '../../domain/log/encoding.ts'
import { photoArrived } from '../log/photo-arrival.ts'
import { problem } from '../middleware/problem.ts'
import { readBytes } from '../middleware/read-body.ts'
import type { Known } from '../middleware/session.ts'
import { kindOfPhoto } from '../photo/kind-of-photo.ts'
import { type Handler, type House, known } from './route.ts'

const held = (bytes: number) => ({ [PHOTO_OFFSET]: String(bytes), 'cache-control': 'no-store' })

/** How much the server holds: a phone goes on from there. */
export const photoState: Handler = known(async (c, { world }, asker) => {
  const hash = c.req.param('hash') ?? ''
  if (!isHash(hash)) return problem(c, 'not-found')
  const blob = await world.store.blob(asker.company, hash)
  const bytes = blob ? blob.bytes : await world.photos.held(asker.company, hash, asker.device.device)
  return c.body(null, 200, held(bytes))
})

/** One part at its offset. With the last, the whole is hashed, and kept only if it is what it was called. */
export const photoPart: Handler = known(async (c, house, asker) => {
  const hash = c.req.param('hash') ?? ''
  const offset = readSize(c.req.header(PHOTO_OFFSET) ?? '')
  const total = readSize(c.req.header(PHOTO_LENGTH) ?? '')
  if (!isHash(hash)) return problem(c, 'not-found')
  if (offset === undefined || total === undefined)
    return problem(c, 'request-malformed', { at: `/${offset === undefined ? PHOTO_OFFSET : PHOTO_LENGTH}` })
  if (total === 0) return problem(c, 'photo-kind')
  if (total > MAX_PHOTO_BYTES) return problem(c, 'photo-too-large')
  const part = await readBytes(c, PHOTO_PART_BYTES)
  if (!part.ok) return problem(c, part.problem.code)
  if (offset + part.value.length > total) return problem(c, 'photo-offset', { next: offset })
  // A part that the network doubled must not be written, or the photo finished, by two requests at once.
  return inTurn(`${asker.company}/${hash}`, () =>
    takePart(c, house, asker, { hash, offset, total, part: part.value }),
  )
})

const inTurn = createTurns()

type Part = {
  readonly hash: string
  readonly offset: number
  readonly total: number
  readonly part: Uint8Array
}

const takePart = async (c: Context, house: House, asker: Known, sent: Part): Promise<Response> => {
  const { world } = house
  const { hash, offset, total, part } = sent
  const { company, device } = asker
  const done = await world.store.blob(company, hash)
  if (done) return c.body(null, 200, held(done.bytes))
  // All of it came before, but the server stopped short of saying so.
  if (part.length === 0 && offset === total) return finishAgain(c, house, asker, hash, total)
  if (part.length === 0) return problem(c, 'photo-offset', { next: offset })
  const now = await world.photos.write(company, hash, device.device, offset, part)
  if (now === 'offset-differs') {
    const bytes = await world.photos.held(company, hash, device.device)
    return problem(c, 'photo-offset', { next: bytes, headers: held(bytes) })
  }
  return now < total ? c.body(null, 200, held(now)) : finish(c, house, asker, hash, total)
}

const finish = async (
  c: Context,
  house: House,
  asker: Known,
  hash: string,
  bytes: number,
): Promise<Response> => {
  const { world } = house
  const { company, device } = asker
  const type = kindOfPhoto(await world.photos.start(company, hash, device.device, 16))
  if (!type) {
    await world.photos.discard(company, hash, device.device)
    return problem(c, 'photo-kind')
  }
  if ((await world.photos.finish(company, hash, device.device)) === 'hash-differs')
    return problem(c, 'photo-hash')
  return logArrival(c, house, company, { hash, bytes, type })
}

const logArrival = async (
  c: Context,
  { sequencer, world }: House,
  company: string,
  photo: { hash: string; bytes: number; type: string },
): Promise<Response> => {
  if (!(await sequencer.run(company, photoArrived(photo)))) return problem(c, 'log-stopped')
  world.photoViews.arrived(company, photo.hash)
  return c.body(null, 200, held(photo.bytes))
}

/** The photo is stored whole but not in the log, or its parts are all there but were not hashed yet. */
const finishAgain = async (
  c: Context,
  house: House,
  asker: Known,
  hash: string,
  total: number,
): Promise<Response> => {
  const { world } = house
  const bytes = await world.photos.held(asker.company, hash, asker.device.device)
  if (bytes !== total) return problem(c, 'photo-offset', { next: bytes, headers: held(bytes) })
  const whole = await world.photos.open(asker.company, hash)
  if (!whole) return finish(c, house, asker, hash, total)
  const type = kindOfPhoto(await startOf(whole.stream))
  if (!type) return problem(c, 'photo-kind')
  return logArrival(c, house, asker.company, { hash, bytes, type })
}

const startOf = async (stream: ReadableStream<Uint8Array>): Promise<Uint8Array> => {
  const reader = stream.getReader()
  const { value } = await reader.read()
  await reader.cancel().catch(() => {})
  return value ?? new Uint8Array()
}

/** The bytes as received. They can't change, so a browser may keep them; but for those who may see them alone. */
export const photo: Handler = known(async (c, { world }, asker) => {
  const hash = c.req.param('hash') ?? ''
  const blob = isHash(hash) ? await world.store.blob(asker.company, hash) : undefined
  const file = blob && (await world.photos.open(asker.company, hash))
  if (!blob || !file) return problem(c, 'not-found')
  return c.body(file.stream, 200, {
    'content-type': blob.type,
    'content-length': String(file.bytes),
    'cache-control': 'private, max-age=31536000, immutable',
    'content-disposition': 'inline',
  })
})

/** The photo's name where the asker's company has it; what others have is answered like what nobody has. */
const ofCompany = async (c: Context, { world }: House, asker: Known): Promise<string | undefined> => {
  const hash = c.req.param('hash') ?? ''
  return isHash(hash) && (await world.store.blob(asker.company, hash)) ? hash : undefined
}

/** A JPEG without a word of where or when. 404 also where the photo can't be drawn: its facts say why. */
const rendition = (size: 'small' | 'large'): Handler =>
  known(async (c, house, asker) => {
    const hash = await ofCompany(c, house, asker)
    const jpeg = hash && (await house.world.photoViews.rendition(asker.company, hash, size))
    if (jpeg === 'busy') return problem(c, 'unavailable')
    if (!jpeg) return problem(c, 'not-found')
    return c.body(new Uint8Array(jpeg), 200, {
      'content-type': 'image/jpeg',
      // A later version may draw it anew under the same name.
      'cache-control': 'private, max-age=86400',
      'content-disposition': 'inline',
    })
  })

export const photoSmall: Handler = rendition('small')
export const photoLarge: Handler = rendition('large')

/** What the file says of itself, with its place: for those who may see the original, and never to be kept. */
export const photoFacts: Handler = known(async (c, house, asker) => {
  const hash = await ofCompany(c, house, asker)
  const { photoViews } = house.world
  const view = hash && (await photoViews.view(asker.company, hash))
  if (view === 'busy') return problem(c, 'unavailable')
  const position = view && hash ? await photoViews.position(asker.company, hash) : undefined
  return view && position ? c.json({ ...view, position }) : problem(c, 'not-found')
})
