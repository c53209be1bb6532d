import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { PHOTO_PART_BYTES } from '../../api/contract/messages/photo.ts'
import { photoFactsAnswer } from '../../api/contract/messages/photo-view.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { createPhotoViews } from '../../api/server/photo/views/create-photo-views.ts'
import { createMadeMemory } from '../../api/server/photo/views/made-memory.ts'
import { sha256 } from '../../api/server/senses.ts'
import { jpeg, jsonOf, openSite, type Person, problemOf, type Site } from '../api/site.ts'
import { openHouse } from '../kit/house.ts'
import { nameOf } from './views.ts'

const IPHONE = new Uint8Array(
  readFileSync(fileURLToPath(new URL('../../node_modules/jpeg-exif/test/IMG_0001.JPG', import.meta.url))),
)

const photos = createPhotoMemory(sha256)
const made = createMadeMemory()
const child = fileURLToPath(new URL('./children/child.ts', import.meta.url))
const views = createPhotoViews({ photos, made })

const send = async (by: Person, bytes: Uint8Array): Promise<string> => {
  const hash = nameOf(bytes)
  for (let offset = 0; offset < bytes.length; offset += PHOTO_PART_BYTES) {
    const answer = await by.phone.wire({
      method: 'PUT',
      path: `/api/photos/${hash}`,
      headers: { 'upload-offset': String(offset), 'upload-length': String(bytes.length) },
      body: bytes.slice(offset, offset + PHOTO_PART_BYTES),
    })
    expect(answer.status).toBe(200)
  }
  return hash
}
const get = (by: Person, hash: string, what: string) =>
  by.phone.wire({ method: 'GET', path: `/api/photos/${hash}/${what}` })

let site: Site
beforeAll(async () => {
  site = await openSite({
    seed: 31,
    photos,
    openHouse: (given) => openHouse({ ...given, photoViews: views }),
  })
})
afterAll(() => views.close())

describe('[photo views] over HTTP', () => {
  test('[photo views] a photo that came is looked at without being asked for, and shown at once after', async () => {
    const hash = await send(site.owner, IPHONE)
    await vi.waitFor(async () => expect(await made.get(site.company, hash, 'view')).toBeDefined(), {
      timeout: 20_000,
      interval: 100,
    })
    for (const size of ['small', 'large'] as const) {
      const answer = await get(site.owner, hash, size)
      expect(answer.status).toBe(200)
      expect(answer.headers.get('content-type')).toBe('image/jpeg')
      expect(answer.headers.get('cache-control')).toBe('private, max-age=86400')
      expect(nameOf(answer.body)).toBe(nameOf((await made.get(site.company, hash, size))!))
    }
    const answer = await get(site.owner, hash, 'facts')
    expect(answer.headers.get('cache-control')).toBe('no-store')
    expect(photoFactsAnswer.parse(jsonOf(answer))).toMatchObject({
      facts: {
        time: {
          local: { is: 'given', value: '2016-03-24T14:49:51.308' },
          offset: { is: 'absent' },
          utc: { is: 'absent' },
        },
        orientation: { is: 'given', value: 6 },
        make: { is: 'given', value: 'Apple' },
      },
      drawing: { is: 'drawn' },
      position: { place: { is: 'given', value: { latitude: 40.00408611, longitude: 116.48478056 } } },
    })
  })

  test('[photo views] those of another company are not there, like those of a photo that nobody sent', async () => {
    const hash = await send(site.owner, IPHONE)
    const lou = await site.found('Heron Creek Slabs', 'Lou')
    for (const what of ['small', 'large', 'facts']) {
      const [other, none, malformed] = [
        await get(lou, hash, what),
        await get(lou, 'cd'.repeat(32), what),
        await get(lou, '..%2f..%2fmaster', what),
      ]
      expect([other.status, none.status, malformed.status]).toEqual([404, 404, 404])
      expect(other.body).toEqual(none.body)
      expect([...(other.headers as Headers)]).toEqual([...(none.headers as Headers)])
    }
  })

  test('[photo views] a photo that can’t be drawn has no rendition, and its facts say why', async () => {
    const hash = await send(site.owner, jpeg(3000))
    for (const size of ['small', 'large'])
      expect(problemOf(await get(site.owner, hash, size)).code).toBe('not-found')
    expect(jsonOf(await get(site.owner, hash, 'facts'))).toMatchObject({
      drawing: { is: 'failed', why: 'damaged' },
      facts: { time: { local: { is: 'unreadable' } } },
    })
    expect(site.reports).toEqual([])
  })

  test('[photo views] while a photo hangs, the server serves others, and its failure is no error of the server', async () => {
    const stuck = createPhotoViews({
      photos,
      made: createMadeMemory(),
      child,
      limits: { ms: 3000, bytes: 1e9 },
    })
    const yard = await openSite({
      seed: 32,
      photos,
      openHouse: (given) => openHouse({ ...given, photoViews: stuck }),
    })
    // The last byte, 1, makes the test's child hang.
    const hash = await send(yard.owner, jpeg(500, 1))
    const asked = get(yard.owner, hash, 'small')
    let longestMs = 0
    for (let i = 0; i < 40; i++) {
      const started = performance.now()
      expect((await yard.owner.phone.wire({ method: 'GET', path: '/api/jobs' })).status).toBe(200)
      longestMs = Math.max(longestMs, performance.now() - started)
      await new Promise((resolve) => setTimeout(resolve, 25))
    }
    expect(longestMs).toBeLessThan(500)
    expect((await asked).status).toBe(404)
    expect((await get(yard.owner, hash, 'facts')).status).toBe(200)
    expect(yard.reports).toEqual([])
    await stuck.close()
  })
})
