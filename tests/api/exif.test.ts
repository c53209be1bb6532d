import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { photoFacts, photoPosition } from '../../api/contract/messages/photo-view.ts'
import { type ExifTags, readExifFacts } from '../../api/server/photo/exif/exif-facts.ts'
import { type ExifTime, readExifTime } from '../../api/server/photo/exif/exif-time.ts'
import { readFileHeader } from '../../api/server/photo/exif/file-header.ts'
import { createPlaces } from '../../api/server/photo/views/places.ts'
import { cases } from '../kit/cases.ts'

type Out = { readonly local: string; readonly offset?: string; readonly utc?: string }
const absent = { is: 'absent' }
const given = (value: unknown) => ({ is: 'given', value })
const time = (tags: Partial<ExifTime>) =>
  readExifTime({
    dateTimeOriginal: undefined,
    subSecTimeOriginal: undefined,
    offsetTimeOriginal: undefined,
    ...tags,
  })
const AT = '2026:07:14 09:05:30'

describe('[photo time] as published', () => {
  for (const { name, input, output } of cases<Partial<ExifTime>, Out>('exif-time').rows)
    test(`[photo time] ${name}`, () => {
      expect(time(input)).toEqual({
        local: given(output.local),
        subSec: input.subSecTimeOriginal === undefined ? absent : given(input.subSecTimeOriginal),
        offset: output.offset === undefined ? absent : given(output.offset),
        utc: output.utc === undefined ? absent : given(output.utc),
      })
    })
})

describe('[photo time] what is written, and makes no time, is unreadable and never guessed', () => {
  for (const dateTimeOriginal of [
    '0000:00:00 00:00:00',
    '2026:02:30 09:05:30',
    '2026:07:14 24:00:00',
    '2026:07:14 09:05:60',
    '2026-07-14 09:05:30',
    '2026:07:14',
    '14.07.2026 09:05',
  ])
    test(`[photo time] ${dateTimeOriginal}`, () => {
      const wrote = { is: 'unreadable', wrote: dateTimeOriginal }
      const read = time({ dateTimeOriginal, offsetTimeOriginal: '-05:00' })
      expect([read.local, read.utc]).toEqual([wrote, { is: 'unreadable' }])
    })

  for (const offsetTimeOriginal of ['-05', '0500', '+15:00', '-14:30', '+05:60', 'CDT'])
    test(`[photo time] the offset ${offsetTimeOriginal}`, () => {
      expect(time({ dateTimeOriginal: AT, offsetTimeOriginal })).toMatchObject({
        local: given('2026-07-14T09:05:30'),
        offset: { is: 'unreadable', wrote: offsetTimeOriginal },
        utc: { is: 'unreadable' },
      })
    })

  test('[photo time] a fraction that is none leaves the second as it was', () => {
    expect(time({ dateTimeOriginal: AT, subSecTimeOriginal: '1e3' })).toMatchObject({
      local: given('2026-07-14T09:05:30'),
      subSec: { is: 'unreadable', wrote: '1e3' },
    })
  })

  test('[photo time] a value that is no text is unreadable', () => {
    for (const value of [[1, 2], {}, null, true])
      expect(time({ dateTimeOriginal: value }).local.is).toBe(value === null ? 'absent' : 'unreadable')
  })
})

test('[photo time] a field of blanks is unknown, and blanks and NULs at an end are padding', () => {
  const blank = '    :  :     :  :  '
  expect(time({ dateTimeOriginal: blank, offsetTimeOriginal: '   :  ' })).toEqual(time({}))
  expect(
    time({ dateTimeOriginal: `${AT}\u0000`, subSecTimeOriginal: '25  ', offsetTimeOriginal: '+00:00\u0000' }),
  ).toMatchObject({ local: given('2026-07-14T09:05:30.25'), utc: given('2026-07-14T09:05:30.25Z') })
})

test('[photo time] the zone of this machine changes nothing', () => {
  const before = process.env.TZ
  const read = ['America/Chicago', 'Asia/Tokyo', 'UTC'].map((zone) => {
    process.env.TZ = zone
    return JSON.stringify([
      time({ dateTimeOriginal: AT }),
      time({ dateTimeOriginal: AT, offsetTimeOriginal: 'Z' }),
    ])
  })
  process.env.TZ = before
  expect(new Set(read).size).toBe(1)
})

const tags = (more: Partial<ExifTags>): ExifTags => ({ ifd0: {}, exif: {}, gps: {}, whole: true, ...more })
const GPS = { 1: 'N', 2: [40, 0, 14.71], 3: 'W', 4: [116, 29, 5.21], 5: [1], 6: 38.5 }

describe('[photo position]', () => {
  test('[photo position] south, west and below the sea are negative', () => {
    expect(readExifFacts(tags({ gps: { ...GPS, 1: 'S' } })).position).toEqual({
      place: given({ latitude: -40.00408611, longitude: -116.48478056 }),
      altitudeM: given(-38.5),
    })
  })

  for (const [name, gps] of [
    ['without its side', { ...GPS, 1: undefined }],
    ['with a side of no such kind', { ...GPS, 1: 'NS' }],
    ['with an empty side', { ...GPS, 1: '' }],
    ['without a longitude', { 1: 'N', 2: [40, 0, 14] }],
    ['past a pole', { ...GPS, 2: [90, 0, 1] }],
    ['of sixty minutes', { ...GPS, 2: [40, 60, 0] }],
    ['divided by nothing', { ...GPS, 2: [40, Number.NaN, 0] }],
    ['of two numbers', { ...GPS, 4: [116, 29] }],
  ] as const)
    test(`[photo position] a place ${name} is unreadable`, () => {
      expect(readExifFacts(tags({ gps })).position.place).toEqual({ is: 'unreadable' })
    })

  test('[photo position] a receiver that found no satellite gives none', () => {
    expect(readExifFacts(tags({ gps: { 7: [9, 10, 49] } })).position).toEqual({
      place: absent,
      altitudeM: absent,
    })
  })
})

test('[photo facts] what a broken file does not show is unreadable, not absent', () => {
  const broken = readExifFacts(tags({ ifd0: { 271: 'Brindle' }, whole: false }))
  expect(broken.facts.make).toEqual(given('Brindle'))
  expect(broken.facts.time.local).toEqual({ is: 'unreadable' })
  expect(broken.position.place).toEqual({ is: 'unreadable' })
})

test('[photo facts] an orientation that EXIF does not know is unreadable', () => {
  for (const value of [0, 9, 1.5, '6'])
    expect(readExifFacts(tags({ ifd0: { 274: value } })).facts.orientation).toEqual({
      is: 'unreadable',
      wrote: String(value),
    })
})

test('[photo facts] marks that turn text round or hide it are left out', () => {
  const { make } = readExifFacts(tags({ ifd0: { 271: 'Ac\u202eme\u0007\u200b' } })).facts
  expect(make).toEqual(given('Acme'))
})

test('[photo facts] any values whatever make facts that the contract knows', () => {
  const value = fc.anything()
  const block = fc.dictionary(fc.constantFrom('1', '2', '3', '4', '5', '6', '271', '272', '274'), value)
  const exif = fc.dictionary(fc.constantFrom('36867', '37521', '36881'), fc.oneof(value, fc.string()))
  fc.assert(
    fc.property(block, exif, block, fc.boolean(), (ifd0, inside, gps, whole) => {
      const { facts, position } = readExifFacts({ ifd0, exif: inside, gps, whole })
      expect(photoFacts.safeParse(facts).success).toBe(true)
      expect(photoPosition.safeParse(position).success).toBe(true)
    }),
    { seed: 41 },
  )
})

test('[photo header] no bytes make the walk of a header throw or stand still', () => {
  const starts = [
    [0xff, 0xd8, 0xff],
    [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    [0x52, 0x49, 0x46, 0x46, 0, 0, 0, 0, 0x57, 0x45, 0x42, 0x50],
    [0, 0, 0, 0x18],
  ]
  fc.assert(
    fc.property(fc.constantFrom(...starts), fc.uint8Array({ maxLength: 200 }), (start, rest) => {
      expect(typeof readFileHeader(new Uint8Array([...start, ...rest])).whole).toBe('boolean')
    }),
    { seed: 42 },
  )
})

test('[photo queue] those that someone waits for go first, and what does not fit is turned away', async () => {
  const places = createPlaces(1, 2)
  const ran: string[] = []
  let open = () => {}
  const gate = new Promise<void>((resolve) => {
    open = resolve
  })
  const work = (name: string) => async () => {
    await gate
    ran.push(name)
  }
  const took = [
    places.take(work('running'), 'behind'),
    places.take(work('later'), 'behind'),
    places.take(work('hurried'), 'behind'),
    places.take(work('one too many'), 'behind'),
    places.take(work('asked'), 'ahead'),
  ]
  took[2]?.hurry()
  expect(took.map((place) => place !== undefined)).toEqual([true, true, true, false, true])
  open()
  await Promise.all(took.map((place) => place?.done))
  expect(ran).toEqual(['running', 'asked', 'hurried', 'later'])
})

test('[photo queue] a work that fails makes room for the next', async () => {
  const places = createPlaces(1, 2)
  const failed = places.take(async () => Promise.reject(new Error('broke')), 'ahead')
  const next = places.take(async () => 'done', 'behind')
  await expect(failed?.done).rejects.toThrow('broke')
  expect(await next?.done).toBe('done')
})
