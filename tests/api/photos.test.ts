import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { MAX_PHOTO_BYTES, PHOTO_PART_BYTES } from '../../api/contract/messages/photo.ts'
import { readUtf8, toHex } from '../../api/domain/log/encoding.ts'
import { createPhotoFiles } from '../../api/server/photo/photo-files.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { sha256 } from '../../api/server/senses.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import type { PhotoKept } from '../../web/sync/kept.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import type { WireAnswer } from '../../web/sync/wire.ts'
import { JOB, jpeg, openSite, type Person, problemOf, type Site } from './site.ts'

const hashOfPhoto = (bytes: Uint8Array): string => toHex(sha256(bytes))
const PHOTO = jpeg(1_000)
const HASH = hashOfPhoto(PHOTO)

const put = (
  by: Person,
  part: Uint8Array,
  at: { offset: number | string; total?: number | string; hash?: string },
) =>
  by.phone.wire({
    method: 'PUT',
    path: `/api/photos/${at.hash ?? HASH}`,
    headers: { 'upload-offset': String(at.offset), 'upload-length': String(at.total ?? PHOTO.length) },
    body: part,
  })
const heldBy = async (by: Person, hash = HASH): Promise<string | null> =>
  (await by.phone.wire({ method: 'GET', path: `/api/photos/${hash}/held` })).headers.get('upload-offset')
const open = (by: Person, hash = HASH) => by.phone.wire({ method: 'GET', path: `/api/photos/${hash}` })

const problemIn = (answer: WireAnswer): string => (answer.status === 200 ? 'none' : problemOf(answer).code)

/** How often the server said that the photo arrived, by job. */
const received = async (site: Site, job = JOB): Promise<unknown[]> =>
  (await site.stores.log.thread(site.company, job))
    .filter((leaf) => leaf.kind === 'photo.received')
    .map((leaf) => JSON.parse(readUtf8(leaf.bytes!)!).body)

const logPhoto = async (by: Person, job = JOB, bytes = PHOTO): Promise<void> => {
  const photo = hashOfPhoto(bytes)
  await by.phone.log(
    job,
    'photo.taken',
    { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket' },
    { evidence: [photo], source: 'photo' },
  )
  await syncRound(by.phone)
}

const STORES = [
  ['in memory', async () => ({ photos: createPhotoMemory(sha256), close: async () => {} })],
  [
    'in files',
    async () => {
      const folder = await mkdtemp(path.join(tmpdir(), 'screedbook-photos-'))
      return { photos: createPhotoFiles(folder), close: () => rm(folder, { recursive: true }) }
    },
  ],
] as const

for (const [where, make] of STORES)
  describe(`[photos] ${where}`, () => {
    const withSite = async (run: (site: Site, beto: Person) => Promise<void>): Promise<void> => {
      const { photos, close } = await make()
      try {
        const site = await openSite({ seed: 12, photos })
        await run(site, await site.hire('Beto', 'crew'))
        expect(site.reports).toEqual([])
      } finally {
        await close()
      }
    }

    test('[photos] parts that meet make the photo, and it comes back byte for byte', () =>
      withSite(async (site, beto) => {
        expect(await heldBy(beto)).toBe('0')
        for (const [from, to] of [
          [0, 400],
          [400, 900],
        ] as const) {
          const answer = await put(beto, PHOTO.slice(from, to), { offset: from })
          expect([answer.status, answer.headers.get('upload-offset')]).toEqual([200, String(to)])
          expect(await heldBy(beto)).toBe(String(to))
          expect((await open(beto)).status).toBe(404)
        }
        expect((await put(beto, PHOTO.slice(900), { offset: 900 })).status).toBe(200)
        const answer = await open(site.owner)
        expect(answer.status).toBe(200)
        expect(answer.body).toEqual(PHOTO)
        expect(answer.headers.get('content-type')).toBe('image/jpeg')
        expect(answer.headers.get('cache-control')).toBe('private, max-age=31536000, immutable')
      }))

    test('[photos] a part at another offset is not taken, and the answer says where to go on', () =>
      withSite(async (_, beto) => {
        await put(beto, PHOTO.slice(0, 400), { offset: 0 })
        for (const offset of [0, 399, 401, 600]) {
          const answer = await put(beto, PHOTO.slice(offset, offset + 100), { offset })
          expect(answer.headers.get('upload-offset')).toBe('400')
          expect(problemOf(answer)).toMatchObject({ code: 'photo-offset', next: 400, status: 409 })
        }
        expect(await heldBy(beto)).toBe('400')
        expect((await put(beto, PHOTO.slice(400), { offset: 400 })).status).toBe(200)
      }))

    test('[photos] bytes that are not what they are called are never stored', () =>
      withSite(async (site, beto) => {
        await logPhoto(beto)
        const other = PHOTO.with(500, 7)
        expect(problemOf(await put(beto, other, { offset: 0 })).code).toBe('photo-hash')
        expect(await heldBy(beto)).toBe('0')
        expect((await open(beto)).status).toBe(404)
        expect(await site.stores.log.blob(site.company, HASH)).toBeUndefined()
        expect(await received(site)).toEqual([])
        expect((await put(beto, PHOTO, { offset: 0 })).status).toBe(200)
        expect(await received(site)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[photos] what is no photo is not stored, whatever it is called', () =>
      withSite(async (site, beto) => {
        const files: readonly [string, Uint8Array][] = [
          ['text', new TextEncoder().encode('a ticket, typed off')],
          ['a page', new TextEncoder().encode('<!doctype html><script>alert(1)</script>')],
          ['one byte', new Uint8Array([0xff])],
          ['half a start', new Uint8Array([0xff, 0xd8])],
        ]
        for (const [name, bytes] of files) {
          const hash = hashOfPhoto(bytes)
          const answer = await put(beto, bytes, { offset: 0, total: bytes.length, hash })
          expect(problemOf(answer).code, name).toBe('photo-kind')
          expect(await heldBy(beto, hash)).toBe('0')
          expect(await site.stores.log.blob(site.company, hash)).toBeUndefined()
        }
        expect(problemOf(await put(beto, new Uint8Array(), { offset: 0, total: 0 })).code).toBe('photo-kind')
      }))

    test('[photos] the first bytes tell what is served, not the sender', () =>
      withSite(async (_, beto) => {
        const starts: readonly [string, readonly number[]][] = [
          ['image/png', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
          ['image/webp', [0x52, 0x49, 0x46, 0x46, 0, 0, 0, 0, 0x57, 0x45, 0x42, 0x50]],
          ['image/heic', [0, 0, 0, 0x18, 0x66, 0x74, 0x79, 0x70, 0x68, 0x65, 0x69, 0x63]],
        ]
        for (const [type, start] of starts) {
          const bytes = new Uint8Array(64)
          bytes.set(start)
          const hash = hashOfPhoto(bytes)
          expect((await put(beto, bytes, { offset: 0, total: 64, hash })).status).toBe(200)
          expect((await open(beto, hash)).headers.get('content-type')).toBe(type)
        }
      }))

    test('[L32] the last part again gets the same answer, and the arrival is said once in each job', () =>
      withSite(async (site, beto) => {
        const second = site.newId()
        await logPhoto(beto)
        await logPhoto(beto)
        await logPhoto(site.owner, second)
        for (let again = 0; again < 3; again++) {
          const answer = await put(beto, PHOTO, { offset: 0 })
          expect([answer.status, answer.headers.get('upload-offset')]).toEqual([200, '1000'])
        }
        expect(await heldBy(site.owner)).toBe('1000')
        await logPhoto(beto)
        for (const job of [JOB, second])
          expect(await received(site, job)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[L32] a photo that came before its entry is said once the entry is there', () =>
      withSite(async (site, beto) => {
        const size = await site.size()
        expect((await put(beto, PHOTO, { offset: 0 })).status).toBe(200)
        expect(await site.size()).toBe(size)
        await logPhoto(beto)
        expect(await received(site)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[photos] a part that the network doubled is written once, and both get the same answer', () =>
      withSite(async (site, beto) => {
        await logPhoto(beto)
        for (const [from, to] of [
          [0, 500],
          [500, 1000],
        ] as const) {
          const part = PHOTO.slice(from, to)
          const twice = await Promise.all([
            put(beto, part, { offset: from }),
            put(beto, part, { offset: from }),
          ])
          expect(twice[0]!.status).toBe(200)
          expect(twice.map((answer) => answer.headers.get('upload-offset'))).toEqual([String(to), String(to)])
        }
        expect((await open(beto)).body).toEqual(PHOTO)
        expect(await received(site)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[photos] two devices that send one photo at once don’t spoil each other’s parts', () =>
      withSite(async (site, beto) => {
        await logPhoto(beto)
        const other = PHOTO.with(20, 9)
        await put(beto, PHOTO.slice(0, 500), { offset: 0 })
        await put(site.owner, other.slice(0, 700), { offset: 0 })
        expect([await heldBy(beto), await heldBy(site.owner)]).toEqual(['500', '700'])
        const ends = await Promise.all([
          put(beto, PHOTO.slice(500), { offset: 500 }),
          put(site.owner, other.slice(700), { offset: 700 }),
        ])
        expect(ends[0]!.status).toBe(200)
        // Whichever came second finds the photo there, and what the owner sent wrong is nowhere.
        expect(problemIn(ends[1]!)).toMatch(/^(photo-hash|none)$/)
        expect((await open(site.owner)).body).toEqual(PHOTO)
        expect(await received(site)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[photos] two devices that both send it whole at once are both told that it is there', () =>
      withSite(async (site, beto) => {
        await logPhoto(beto)
        await put(beto, PHOTO.slice(0, 500), { offset: 0 })
        await put(site.owner, PHOTO.slice(0, 500), { offset: 0 })
        const ends = await Promise.all(
          [beto, site.owner].map((by) => put(by, PHOTO.slice(500), { offset: 500 })),
        )
        expect(ends.map((end) => end.status)).toEqual([200, 200])
        expect(await received(site)).toEqual([{ photo: HASH, bytes: PHOTO.length }])
      }))

    test('[photos] a photo of another company is not there, like one that nobody sent', () =>
      withSite(async (site, beto) => {
        expect((await put(beto, PHOTO, { offset: 0 })).status).toBe(200)
        const lou = await site.found('Heron Creek Slabs', 'Lou')
        const [other, none] = [await open(lou), await open(lou, 'cd'.repeat(32))]
        expect(other.status).toBe(404)
        expect(other.body).toEqual(none.body)
        expect([...(other.headers as Headers)]).toEqual([...(none.headers as Headers)])
        expect(await heldBy(lou)).toBe('0')
      }))

    for (const point of ['before the parts were hashed', 'before the log took it'] as const)
      test(`[photos] a server that stopped ${point} is asked again, and the phone calls it sent only then`, () =>
        withSite(async (site, beto) => {
          const { photos } = site
          const { phone } = beto
          const photo = await keepPhoto(phone, PHOTO, 'image/jpeg')
          await photos.write(site.company, photo, beto.identity.device, 0, PHOTO)
          if (point === 'before the log took it')
            await photos.finish(site.company, photo, beto.identity.device)
          await logPhoto(beto)
          expect(await received(site)).toEqual([{ photo, bytes: PHOTO.length }])
          expect((await open(site.owner)).body).toEqual(PHOTO)
          const kept = await phone.store.transact((tx) => tx.get<PhotoKept>('photos', photo))
          expect(kept).toMatchObject({ sent: true })
        }))

    test('[photos] garbage that a stopped server held whole is dropped, and the phone sends it anew', () =>
      withSite(async (site, beto) => {
        const photo = await keepPhoto(beto.phone, PHOTO, 'image/jpeg')
        await site.photos.write(site.company, photo, beto.identity.device, 0, PHOTO.with(9, 9))
        await logPhoto(beto)
        expect(await received(site)).toEqual([{ photo, bytes: PHOTO.length }])
      }))
  })

test('[photos] a photo of several parts is sent by the phone as shipped', async () => {
  const site = await openSite({ seed: 13 })
  const large = jpeg(PHOTO_PART_BYTES + 77)
  await keepPhoto(site.owner.phone, large, 'image/jpeg')
  await logPhoto(site.owner, JOB, large)
  expect(await received(site)).toEqual([{ photo: hashOfPhoto(large), bytes: large.length }])
})

test('[photos] a stopped log takes no photo, and the phone goes on keeping it', async () => {
  const stores = createMemoryStore()
  const site = await openSite({ seed: 14, stores })
  await keepPhoto(site.owner.phone, PHOTO, 'image/jpeg')
  await stores.log.transact(site.company, async (tx) => {
    const { frontier } = (await tx.company())!
    const nothing = {
      leaves: [],
      threads: [],
      deviceLogs: [],
      deviceLeaves: [],
      heads: [],
      checkpoint: undefined,
    }
    const stopped = { code: 'log-contradicted', evidence: 'a note' }
    await tx.append({ ...nothing, frontier, setAside: [], asidePushes: [], blobs: [], mentions: [], stopped })
  })
  for (let round = 0; round < 2; round++)
    expect(await syncRound(site.owner.phone)).toMatchObject({ photos: { sent: 0, left: 1 } })
})

test('[photos] a request out of form, or too large, changes nothing', async () => {
  const site = await openSite({ seed: 15 })
  const by = site.owner
  const before = await site.dump()
  for (const [offset, total, pointer] of [
    ['', '10', '/upload-offset'],
    ['-1', '10', '/upload-offset'],
    ['0x1', '10', '/upload-offset'],
    ['0', '', '/upload-length'],
    ['0', '1e3', '/upload-length'],
  ] as const) {
    const problem = problemOf(await put(by, PHOTO, { offset, total }))
    expect(problem).toMatchObject({ code: 'request-malformed', errors: [{ pointer }] })
  }
  const tooLarge = await put(by, PHOTO, { offset: 0, total: MAX_PHOTO_BYTES + 1 })
  expect(problemOf(tooLarge).code).toBe('photo-too-large')
  const longPart = await put(by, jpeg(PHOTO_PART_BYTES + 1), { offset: 0, total: PHOTO_PART_BYTES + 1 })
  expect(problemOf(longPart).code).toBe('request-too-large')
  expect(problemOf(await put(by, PHOTO, { offset: 0, total: 999 })).code).toBe('photo-offset')
  expect(problemOf(await put(by, new Uint8Array(), { offset: 0 })).code).toBe('photo-offset')
  expect(problemOf(await put(by, new Uint8Array(), { offset: 1000 })).code).toBe('photo-offset')
  expect(await heldBy(by)).toBe('0')
  expect(await site.dump()).toBe(before)
})

test('[photos] a name that is no hash is not there', async () => {
  const site = await openSite({ seed: 16 })
  for (const hash of [
    'x',
    HASH.toUpperCase(),
    HASH.slice(1),
    `${HASH}00`,
    '..%2f..%2fmaster.key',
    '%00',
    '%zz',
  ]) {
    site.calls.length = 0
    const answers = [
      await open(site.owner, hash),
      await put(site.owner, PHOTO, { offset: 0, hash }),
      await site.owner.phone.wire({ method: 'GET', path: `/api/photos/${hash}/held` }),
    ]
    expect(
      answers.map((answer) => answer.status),
      hash,
    ).toEqual([404, 404, 404])
    expect(site.calls.filter((call) => call.startsWith('photos.'))).toEqual([])
  }
  expect(site.reports).toEqual([])
})
