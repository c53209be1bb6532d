import { readFileSync } from 'node:fs'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { afterAll, describe, expect, test } from 'vitest'
import { createPhotoViews } from '../../api/server/photo/views/create-photo-views.ts'
import { createMadeFiles } from '../../api/server/photo/views/made-files.ts'
import { asFile, tellTags } from './exiftool.ts'
import { COMPANY, nameOf, openViews } from './views.ts'

const IPHONE = new Uint8Array(
  readFileSync(fileURLToPath(new URL('../../node_modules/jpeg-exif/test/IMG_0001.JPG', import.meta.url))),
)

const house = openViews()
afterAll(() => house.views.close())

describe('[renditions] each way that a camera was held is set upright once', () => {
  const WIDTH = 2400
  const HEIGHT = 1600

  /** Where a stored pixel belongs in the upright picture. Source: Exif 2.32 §4.6.4, tag 274. */
  const upright = (orientation: number, x: number, y: number, w: number, h: number): [number, number] => {
    const ways: Record<number, [number, number]> = {
      1: [x, y],
      2: [w - 1 - x, y],
      3: [w - 1 - x, h - 1 - y],
      4: [x, h - 1 - y],
      5: [y, x],
      6: [h - 1 - y, x],
      7: [h - 1 - y, w - 1 - x],
      8: [y, w - 1 - x],
    }
    return ways[orientation]!
  }
  const QUARTERS = [
    [220, 30, 30],
    [30, 160, 40],
    [30, 60, 210],
    [240, 230, 60],
  ] as const
  const colourAt = (x: number, y: number) => QUARTERS[(x < WIDTH / 2 ? 0 : 1) + (y < HEIGHT / 2 ? 0 : 2)]!

  for (let orientation = 1; orientation <= 8; orientation++)
    test(`[renditions] orientation ${orientation}`, async () => {
      const [w, h] = orientation < 5 ? [WIDTH, HEIGHT] : [HEIGHT, WIDTH]
      const pixels = Buffer.alloc(w * h * 3)
      for (let y = 0; y < h; y++)
        for (let x = 0; x < w; x++) pixels.set(colourAt(...upright(orientation, x, y, w, h)), 3 * (y * w + x))
      const bytes = new Uint8Array(
        await sharp(pixels, { raw: { width: w, height: h, channels: 3 } })
          .withMetadata({ orientation })
          .jpeg()
          .toBuffer(),
      )
      const { view, photo } = await house.look(bytes)
      expect(view.facts.orientation).toEqual({ is: 'given', value: orientation })
      expect(view.drawing).toMatchObject({
        is: 'drawn',
        small: { width: 400, height: 267 },
        large: { width: 1600, height: 1067 },
      })
      for (const size of ['small', 'large'] as const) {
        const { data, info } = await sharp(await house.rendition(photo, size))
          .raw()
          .toBuffer({ resolveWithObject: true })
        for (const [i, [fx, fy]] of [
          [0.25, 0.25],
          [0.75, 0.25],
          [0.25, 0.75],
          [0.75, 0.75],
        ].entries()) {
          // biome-ignore format: four corners
          const at = 3 * (Math.floor(fy! * info.height) * info.width + Math.floor(fx! * info.width))
          for (let c = 0; c < 3; c++)
            expect(Math.abs(data[at + c]! - QUARTERS[i]![c]!), `${size} ${i}`).toBeLessThan(16)
        }
      }
    })
})

describe('[renditions] nothing of where, when or who is left in them', () => {
  test('[renditions] a photo with a place keeps it for itself', async () => {
    const { photo, position } = await house.look(IPHONE)
    expect(position.place.is).toBe('given')
    for (const size of ['small', 'large'] as const) {
      const jpeg = await house.rendition(photo, size)
      const told = asFile(jpeg, `${size}.jpg`, (file) => tellTags([file])[0]!)
      const groups = new Set(Object.keys(told).map((name) => name.split(':')[0]))
      expect([...groups].sort()).toEqual(['Composite', 'ExifTool', 'File', 'SourceFile', 'System'])
      expect(Buffer.from(jpeg).includes('Exif')).toBe(false)
    }
    expect(nameOf((await house.original(photo))!)).toBe(photo)
  })

  test('[renditions] clear glass becomes white, sixteen bits eight, and grey stays a JPEG', async () => {
    const clear = { r: 0, g: 0, b: 0, alpha: 0 }
    const glass = sharp({ create: { width: 40, height: 30, channels: 4, background: clear } })
    const { photo, view } = await house.look(new Uint8Array(await glass.png().toBuffer()))
    expect(view.drawing).toMatchObject({ is: 'drawn', small: { width: 40, height: 30 } })
    expect([
      ...(
        await sharp(await house.rendition(photo, 'small'))
          .raw()
          .toBuffer()
      ).subarray(0, 3),
    ]).toEqual([255, 255, 255])
    for (const space of ['rgb16', 'grey16', 'b-w', 'cmyk'] as const) {
      const plain = sharp({ create: { width: 40, height: 30, channels: 3, background: '#808080' } })
      const file = plain.toColourspace(space)
      const bytes = new Uint8Array(await (space === 'cmyk' ? file.jpeg() : file.png()).toBuffer())
      const { photo: next } = await house.look(bytes)
      const [grey] = await sharp(await house.rendition(next, 'small'))
        .raw()
        .toBuffer()
      expect(Math.abs(grey! - 128), space).toBeLessThan(20)
    }
  })
})

test('[renditions] all that was made can be dropped and comes back the same', async () => {
  const { photo, view, position } = await house.look(IPHONE)
  const before = [await house.rendition(photo, 'small'), await house.rendition(photo, 'large')].map(nameOf)
  await house.views.drop()
  expect(await house.made.get(COMPANY, photo, 'view')).toBeUndefined()
  expect(await house.look(IPHONE)).toEqual({ photo, view, position })
  const after = [await house.rendition(photo, 'small'), await house.rendition(photo, 'large')].map(nameOf)
  expect(after).toEqual(before)
})

test('[renditions] what an older version made, or a power cut left empty, is made anew', async () => {
  const folder = await mkdtemp(path.join(tmpdir(), 'screedbook-made-'))
  try {
    let n = 0
    const suffix = () => `draft${n++}`
    const photo = await house.add(IPHONE)
    const older = createMadeFiles(folder, 1, suffix)
    const views = createPhotoViews({ photos: house.store, made: older })
    expect(await views.view(COMPANY, photo)).toMatchObject({ drawing: { is: 'drawn' } })
    expect(await older.get(COMPANY, photo, 'large')).toBeDefined()
    expect((await readdir(folder, { recursive: true })).filter((name) => name.includes('draft'))).toEqual([])
    expect(await createMadeFiles(folder, 2, suffix).get(COMPANY, photo, 'view')).toBeUndefined()
    await older.put(COMPANY, photo, new Map([['view', new Uint8Array()]]))
    expect(await views.view(COMPANY, photo)).toMatchObject({ drawing: { is: 'drawn' } })
    await older.put(COMPANY, photo, new Map([['view', new TextEncoder().encode('{"version":1')]]))
    expect(await views.view(COMPANY, photo)).toMatchObject({ drawing: { is: 'drawn' } })
    await views.close()
  } finally {
    await rm(folder, { recursive: true })
  }
})

test('[renditions] many who ask at once for one photo have it made once', async () => {
  const fresh = openViews()
  const photo = await fresh.add(IPHONE)
  fresh.views.arrived(COMPANY, photo)
  const all = await Promise.all(
    Array.from({ length: 20 }, () => fresh.views.rendition(COMPANY, photo, 'small')),
  )
  expect(new Set(all.map((jpeg) => (jpeg && jpeg !== 'busy' ? nameOf(jpeg) : jpeg))).size).toBe(1)
  // Once for its kind, once for its child.
  expect(fresh.opened()).toBe(2)
  await fresh.views.close()
})
