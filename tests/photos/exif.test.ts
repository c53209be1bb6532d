import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Fact, PhotoFacts, PhotoPosition } from '../../api/contract/messages/photo-view.ts'
import { cases } from '../kit/cases.ts'
import { withExif, writeTiff } from './exif-writer.ts'
import { asFile, runExiftool, type Told, tellTags } from './exiftool.ts'
import { nameOf, openViews } from './views.ts'

const house = openViews()
afterAll(() => house.views.close())

const given = (value: unknown) => ({ is: 'given', value })
const valueIn = <T>(fact: Fact<T>): T | undefined => (fact.is === 'given' ? fact.value : undefined)

/** What we say, in exiftool's words. */
const ours = ({ facts, position }: { facts: PhotoFacts; position: PhotoPosition }) => {
  const place = valueIn(position.place)
  return {
    time: valueIn(facts.time.local)?.replace(/\..*/, ''),
    subSec: valueIn(facts.time.subSec),
    offset: valueIn(facts.time.offset),
    orientation: valueIn(facts.orientation),
    make: valueIn(facts.make),
    model: valueIn(facts.model),
    latitude: place?.latitude.toFixed(7),
    longitude: place?.longitude.toFixed(7),
    altitudeM: valueIn(position.altitudeM)?.toFixed(3),
  }
}

const signed = (told: Told, name: string, minus: string | number): number | undefined => {
  const value = told[`GPS:${name}`]
  return typeof value === 'number' ? (told[`GPS:${name}Ref`] === minus ? -value : value) : undefined
}
const text = (value: string | number | undefined) => (value === undefined ? undefined : String(value))

const exiftools = (told: Told) => ({
  time: text(told['ExifIFD:DateTimeOriginal'])?.replace(/^(\d+):(\d+):(\d+) /, '$1-$2-$3T'),
  subSec: text(told['ExifIFD:SubSecTimeOriginal']),
  offset: text(told['ExifIFD:OffsetTimeOriginal']),
  orientation: told['IFD0:Orientation'],
  make: told['IFD0:Make'],
  model: told['IFD0:Model'],
  latitude: signed(told, 'GPSLatitude', 'S')?.toFixed(7),
  longitude: signed(told, 'GPSLongitude', 'W')?.toFixed(7),
  altitudeM: signed(told, 'GPSAltitude', 1)?.toFixed(3),
})

const CAMERA_FILES = ['exif/test', 'exif-parser/test', 'jpeg-exif/test', 'exif-js/example'].flatMap(
  (folder) => {
    const root = fileURLToPath(new URL(`../../node_modules/${folder}/`, import.meta.url))
    return readdirSync(root)
      .filter((name) => /\.jpe?g$/i.test(name))
      .map((name) => `${root}${name}`)
  },
)

describe('[photo facts] files of real cameras say the same to us and to exiftool', () => {
  let told: ReadonlyMap<string, Told>
  beforeAll(() => {
    told = new Map(tellTags(CAMERA_FILES).map((file) => [file.SourceFile, file]))
  })

  test('[photo facts] there are files of every package, with times, fractions, places and turns among them', () => {
    expect(CAMERA_FILES.length).toBeGreaterThanOrEqual(16)
    const said = [...told.values()].map(exiftools)
    expect(said.filter((s) => s.time).length).toBeGreaterThanOrEqual(10)
    expect(said.filter((s) => s.subSec).length).toBeGreaterThanOrEqual(2)
    expect(said.filter((s) => s.latitude).length).toBeGreaterThanOrEqual(5)
    expect(new Set(said.map((s) => s.orientation))).toEqual(new Set([undefined, 1, 4, 6, 8]))
  })

  for (const file of CAMERA_FILES)
    test(`[photo facts] ${file.split('node_modules/')[1]}`, async () => {
      const bytes = new Uint8Array(readFileSync(file))
      const { view, position, photo } = await house.look(bytes)
      expect(ours({ facts: view.facts, position })).toEqual(exiftools(told.get(file)!))
      expect(nameOf((await house.original(photo))!)).toBe(photo)
    })
})

const plainJpeg = () =>
  sharp({ create: { width: 80, height: 60, channels: 3, background: '#8a8a80' } })
    .jpeg()
    .toBuffer()

describe('[photo facts] what exiftool writes, we read', () => {
  for (const [name, args] of [
    ['an offset east of Greenwich', ['-OffsetTimeOriginal=+10:00', '-SubSecTimeOriginal=007']],
    ['an offset west of it', ['-OffsetTimeOriginal=-03:30', '-Orientation#=8', '-Make=Brindle']],
    [
      'a place south and west, below the sea',
      [
        '-GPSLatitude=33.45',
        '-GPSLatitudeRef=S',
        '-GPSLongitude=70.66',
        '-GPSLongitudeRef=W',
        '-GPSAltitude=3.5',
        '-GPSAltitudeRef#=1',
      ],
    ],
    ['the offsets of other times', ['-OffsetTime=+02:00', '-OffsetTimeDigitized=+03:00']],
    ['no time of its own but that of its scan', ['-DateTimeOriginal=', '-CreateDate=2026:07:15 10:00:00']],
  ] as const)
    test(`[photo facts] ${name}`, async () => {
      const jpeg = await plainJpeg()
      const [bytes, told] = asFile(jpeg, 'plain.jpg', (file) => {
        runExiftool([
          '-q',
          '-n',
          '-overwrite_original',
          '-DateTimeOriginal=2026:07:14 09:05:30',
          ...args,
          file,
        ])
        return [new Uint8Array(readFileSync(file)), tellTags([file])[0]!] as const
      })
      const { view, position } = await house.look(bytes)
      expect(ours({ facts: view.facts, position })).toEqual(exiftools(told))
    })
})

test('[photo facts] each tag is read under its published number, and none of its neighbours', async () => {
  const { rows } = cases<{ in: string }, { tag: number }>('exif-tags')
  const tag = (name: string) => rows.find((row) => row.name === name)!.output.tag
  const tiff = writeTiff({
    ifd0: [{ tag: 274, short: 6 }],
    exif: [
      { tag: tag('DateTimeDigitized'), ascii: '2001:01:01 01:01:01' },
      { tag: tag('OffsetTime'), ascii: '+01:00' },
      { tag: tag('OffsetTimeOriginal'), ascii: '-05:00' },
      { tag: tag('SubSecTimeOriginal'), ascii: '250' },
      { tag: 36867, ascii: '2026:07:14 09:05:30' },
    ],
    gps: [
      { tag: tag('GPSLatitudeRef'), ascii: 'N' },
      { tag: tag('GPSLatitude'), rationals: [[30, 1], [15, 1], [0, 1]] }, // biome-ignore format: one place
      { tag: 3, ascii: 'W' },
      { tag: tag('GPSLongitude'), rationals: [[97, 1], [45, 1], [0, 1]] }, // biome-ignore format: one place
      { tag: tag('GPSAltitude'), rationals: [[625, 10]] },
    ],
    gpsPointer: tag('GPSInfo'),
  })
  const { view, position } = await house.look(withExif(await plainJpeg(), tiff))
  expect(view.facts.time).toEqual({
    local: given('2026-07-14T09:05:30.250'),
    subSec: given('250'),
    offset: given('-05:00'),
    utc: given('2026-07-14T14:05:30.250Z'),
  })
  expect(view.facts.orientation).toEqual(given(6))
  expect(position).toEqual({
    place: given({ latitude: 30.25, longitude: -97.75 }),
    altitudeM: given(62.5),
  })
  expect(JSON.stringify(view)).not.toContain('97.75')
})

/**
 * No encoder for HEVC here: the same container around AV1, under HEIC's brand, with each part placed from the start of
 * the file as phones do. Source: ISO/IEC 14496-12 §8.11.3 (iloc, version 0 with four-byte offsets).
 */
const asHeic = (avif: Buffer): Uint8Array => {
  const heic = Buffer.from(avif.toString('latin1').replace('ftypavif', 'ftypheic'), 'latin1')
  const iloc = heic.indexOf('iloc') + 4
  expect([heic[iloc], heic[iloc + 4], heic[iloc + 5]]).toEqual([0, 0x44, 0x40])
  for (let i = 0; i < heic.readUInt16BE(iloc + 6); i++) {
    const item = iloc + 8 + 18 * i
    heic.writeUInt32BE(heic.readUInt32BE(item + 4) + heic.readUInt32BE(item + 10), item + 10)
    heic.writeUInt32BE(0, item + 4)
  }
  return new Uint8Array(heic)
}

describe('[photo facts] other kinds of file', () => {
  const written = () =>
    sharp({ create: { width: 80, height: 60, channels: 3, background: '#8a8a80' } })
      .withMetadata({ orientation: 6 })
      .withExifMerge({
        IFD0: { Make: 'Brindle' },
        IFD2: { DateTimeOriginal: '2026:07:14 09:05:30', OffsetTimeOriginal: '-05:00' },
        IFD3: {
          GPSLatitudeRef: 'N',
          GPSLatitude: '30/1 15/1 0/1',
          GPSLongitudeRef: 'W',
          GPSLongitude: '97/1 45/1 0/1',
        },
      })

  for (const kind of ['png', 'webp'] as const)
    test(`[photo facts] a ${kind} says its facts, and is drawn upright`, async () => {
      const bytes = new Uint8Array(await written().toFormat(kind).toBuffer())
      const { view, position } = await house.look(bytes)
      const told = asFile(bytes, `photo.${kind}`, (file) => tellTags([file])[0]!)
      expect(ours({ facts: view.facts, position })).toEqual(exiftools(told))
      expect(view.facts.orientation).toEqual(given(6))
      expect(view.drawing).toMatchObject({ is: 'drawn', small: { width: 60, height: 80 } })
    })

  test('[photo facts] a HEIC says its facts, and that it can’t be drawn', async () => {
    const bytes = asHeic(await written().toFormat('avif').toBuffer())
    const { view, position, photo } = await house.look(bytes)
    const told = asFile(bytes, 'photo.heic', (file) => tellTags([file])[0]!)
    expect(ours({ facts: view.facts, position })).toEqual(exiftools(told))
    expect(view.facts.time.utc).toEqual(given('2026-07-14T14:05:30Z'))
    expect(view.drawing).toEqual({ is: 'cannot-draw', kind: 'image/heic' })
    expect(await house.views.rendition('x', photo, 'small')).toBeUndefined()
  })

  test('[photo facts] a photo with no EXIF at all says that each fact is absent', async () => {
    for (const kind of ['jpeg', 'png', 'webp'] as const) {
      const bare = sharp({ create: { width: 8, height: 8, channels: 3, background: '#000' } })
      const { view, position } = await house.look(new Uint8Array(await bare.toFormat(kind).toBuffer()))
      const { time, orientation, make, model } = view.facts
      const all = [...Object.values(time), orientation, make, model, ...Object.values(position)]
      expect(new Set(all.map((fact) => fact.is)), kind).toEqual(new Set(['absent']))
    }
  })
})
