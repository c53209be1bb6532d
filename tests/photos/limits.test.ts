import { fileURLToPath } from 'node:url'
import { crc32, deflateSync } from 'node:zlib'
import sharp from 'sharp'
import { afterAll, describe, expect, test } from 'vitest'
import { COMPANY, openViews } from './views.ts'

const child = fileURLToPath(new URL('./children/child.ts', import.meta.url))
const MiB = 1024 * 1024
const unreadable = { is: 'unreadable' }

/** Begins like a JPEG; its last byte tells the test's child what to do. */
const photoThat = (does: number): Uint8Array => new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 0, 7, does])

describe('[photo limits] a child that fails is a photo that failed, and stays so', () => {
  for (const [name, does, why] of [
    ['hangs', 1, 'time'],
    ['crashes', 2, 'crashed'],
    ['eats memory', 3, 'memory'],
    ['ends without a word', 5, 'crashed'],
  ] as const)
    test(`[photo limits] ${name}`, async () => {
      const house = openViews({ child, limits: { ms: 2500, bytes: 300 * MiB } })
      const { view, position, photo } = await house.look(photoThat(does))
      expect(view.drawing).toEqual({ is: 'failed', why })
      expect(view.facts.time.local).toEqual(unreadable)
      expect(position.place).toEqual(unreadable)
      const opened = house.opened()
      expect((await house.look(photoThat(does))).view).toEqual(view)
      expect(await house.views.rendition(COMPANY, photo, 'small')).toBeUndefined()
      expect(house.opened()).toBe(opened)
      await house.views.close()
    })

  test('[photo limits] a photo whose tags hang is still tried for its picture', async () => {
    const house = openViews({ child, limits: { ms: 1500, bytes: 300 * MiB } })
    const { view } = await house.look(photoThat(4))
    expect([view.facts.make, view.drawing]).toEqual([unreadable, { is: 'failed', why: 'damaged' }])
    await house.views.close()
  })

  test('[photo limits] a child that can’t be started says nothing about the photo: it is tried again', async () => {
    const house = openViews({ child: '/nowhere/child.ts' })
    const photo = await house.add(photoThat(1))
    for (let again = 0; again < 2; again++) expect(await house.views.view(COMPANY, photo)).toBe('busy')
    expect(await house.made.get(COMPANY, photo, 'view')).toBeUndefined()
    await house.views.close()
  })

  test('[photo limits] a server that stops ends what runs, and keeps no failure for it', async () => {
    const house = openViews({ child, limits: { ms: 60_000, bytes: 300 * MiB } })
    const photo = await house.add(photoThat(1))
    const asked = house.views.view(COMPANY, photo)
    await new Promise((resolve) => setTimeout(resolve, 500))
    await house.views.close()
    expect(await asked).toBe('busy')
    expect(await house.views.view(COMPANY, photo)).toBe('busy')
    expect(await house.made.get(COMPANY, photo, 'view')).toBeUndefined()
  })

  test('[photo limits] more than may wait are told to ask again, and the others get their turn', async () => {
    const house = openViews({ child, limits: { ms: 1000, bytes: 300 * MiB }, mostWaiting: 2 })
    const hashes: string[] = []
    for (const fill of [10, 11, 12, 13])
      hashes.push(await house.add(new Uint8Array([0xff, 0xd8, 0xff, fill, 2])))
    const seen = await Promise.all(hashes.map((photo) => house.views.view(COMPANY, photo)))
    expect(seen.map((view) => view === 'busy')).toEqual([false, false, false, true])
    await house.views.close()
  })

  test('[photo limits] a photo that its disk has spoiled is not looked at under its name', async () => {
    const spoiled = openViews()
    const photo = await spoiled.add(photoThat(1))
    const { createPhotoViews } = await import('../../api/server/photo/views/create-photo-views.ts')
    const views = createPhotoViews({
      photos: {
        open: async () => ({ bytes: 8, stream: new Blob([photoThat(2).slice()]).stream() }),
      },
      made: spoiled.made,
    })
    expect(await views.view(COMPANY, photo)).toBeUndefined()
    expect(await spoiled.made.get(COMPANY, photo, 'view')).toBeUndefined()
    await views.close()
    await spoiled.views.close()
  })
})

describe('[photo limits] a picture that is far larger than its file', () => {
  const house = openViews()
  afterAll(() => house.views.close())

  for (const [name, make] of [
    ['256 megapixels of one colour in a PNG', () => onePng(16_000, 16_000)],
    ['a PNG whose header claims the most that it can', () => onePng(0x7fffffff, 0x7fffffff, 2)],
    ['one row, 64 million wide', () => onePng(64_000_000, 1)],
  ] as const)
    test(`[photo limits] ${name} is refused by its header`, async () => {
      const bytes = make()
      expect(bytes.length).toBeLessThan(MiB)
      const started = performance.now()
      const { view } = await house.look(bytes)
      const tookMs = performance.now() - started
      if (view.drawing.is !== 'failed') throw new Error('drawn')
      // A header that libpng itself won't have is damage; either way nothing is decoded.
      expect(view.drawing.why).toMatch(
        name.startsWith('256') ? /^too-many-pixels$/ : /^(too-many-pixels|damaged)$/,
      )
      if (name.startsWith('256')) {
        expect(view.drawing).toMatchObject({ width: 16_000, height: 16_000 })
        expect(view.drawing.refusedMs).toBeLessThan(50)
        console.log(
          `refused in ${view.drawing.refusedMs?.toFixed(1)} ms, ${tookMs.toFixed(0)} ms with its process`,
        )
      }
      const next = await house.look(
        new Uint8Array(
          await sharp({ create: { width: 90, height: 60, channels: 3, background: '#456' } })
            .png()
            .toBuffer(),
        ),
      )
      expect(next.view.drawing.is).toBe('drawn')
    })

  test('[photo limits] 49 megapixels, turned, are drawn within the limits', async () => {
    const large = sharp({ create: { width: 8750, height: 5600, channels: 3, background: '#9a9a92' } })
    const bytes = new Uint8Array(
      await large.withMetadata({ orientation: 6 }).jpeg({ quality: 50 }).toBuffer(),
    )
    const { view } = await house.look(bytes)
    expect(view.drawing).toMatchObject({
      is: 'drawn',
      large: { width: 1024, height: 1600 },
      small: { width: 256, height: 400 },
    })
  })
})

/** A grey PNG of one bit a pixel; with `rows` it holds fewer rows than it claims. Source: PNG (Third Edition) §5, §11. */
const onePng = (width: number, height: number, rows = height): Uint8Array => {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header[8] = 1
  const row = Math.min(1 + Math.ceil(width / 8), 16 * MiB)
  return new Uint8Array(
    Buffer.concat([
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
      chunk('IHDR', header),
      chunk('IDAT', deflateSync(Buffer.alloc(row * rows), { level: 9 })),
      chunk('IEND', Buffer.alloc(0)),
    ]),
  )
}

const chunk = (type: string, data: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const length = Buffer.alloc(4)
  length.writeUInt32BE(data.length)
  const sum = Buffer.alloc(4)
  sum.writeUInt32BE(crc32(named))
  return Buffer.concat([length, named, sum])
}
