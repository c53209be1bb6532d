import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { afterAll, describe, expect, test } from 'vitest'
import type { Fact } from '../../api/contract/messages/photo-view.ts'
import { withExif, writeTiff } from './exif-writer.ts'
import { openViews } from './views.ts'

const IPHONE = new Uint8Array(
  readFileSync(fileURLToPath(new URL('../../node_modules/jpeg-exif/test/IMG_0001.JPG', import.meta.url))),
)

const house = openViews()
afterAll(() => house.views.close())

/** Each fact by its name. */
const look = async (bytes: Uint8Array) => {
  const { view, position } = await house.look(bytes)
  const { time, ...others } = view.facts
  const facts: Record<string, Fact<unknown>> = { ...time, ...others, ...position }
  return { facts, drawing: view.drawing }
}

/** What a damaged copy says is what the whole one said, or that it can't be read: never that it is absent, or other. */
const expectNoLie = async (bytes: Uint8Array, whole: Record<string, Fact<unknown>>): Promise<void> => {
  const { facts } = await look(bytes)
  for (const [name, fact] of Object.entries(facts))
    if (fact.is !== 'unreadable') expect(fact, name).toEqual(whole[name])
}

describe('[photo damage] a photo cut short', () => {
  for (const at of [3, 4, 12, 24, 60, 300, 900, 2_000, 8_000, 20_000, 200_000, IPHONE.length - 1000])
    test(`[photo damage] after ${at} bytes is not drawn, and says nothing else than the whole one`, async () => {
      const whole = await look(IPHONE)
      const cut = IPHONE.slice(0, at)
      await expectNoLie(cut, whole.facts)
      expect((await look(cut)).drawing).toEqual({ is: 'failed', why: 'damaged' })
    })

  test('[photo damage] zeros for all that follows the header', async () => {
    const whole = await look(IPHONE)
    for (const from of [4, 20, 8_000]) {
      const zeroed = IPHONE.slice().fill(0, from)
      await expectNoLie(zeroed, whole.facts)
      expect((await look(zeroed)).drawing.is).toBe('failed')
    }
  })
})

describe('[photo damage] EXIF that was made to hurt', () => {
  const plain = sharp({ create: { width: 80, height: 60, channels: 3, background: '#8a8a80' } })
    .jpeg()
    .toBuffer()
  const at = { tag: 36867, ascii: '2026:07:14 09:05:30' }
  const poke = (tiff: Buffer, offset: number, value: number): Buffer => {
    tiff.writeUInt32LE(value, offset)
    return tiff
  }
  const BLOCKS: readonly (readonly [string, Buffer])[] = [
    ['a block whose next is itself', writeTiff({ ifd0: [{ tag: 274, short: 6 }], exif: [at], next: 8 })],
    ['an EXIF block that is the first one again', writeTiff({ ifd0: [{ tag: 34665, long: 8 }] })],
    ['a GPS block that is the first one again', writeTiff({ ifd0: [{ tag: 34853, long: 8 }] })],
    [
      'two blocks that lead to each other',
      writeTiff({ ifd0: [{ tag: 34853, long: 8 }], exif: [{ tag: 34665, long: 8 }, at], next: 26 }),
    ],
    ['a first block past the end', poke(writeTiff({ exif: [at] }), 4, 0x7fffffff)],
    ['a first block inside the header', poke(writeTiff({ exif: [at] }), 4, 0)],
    [
      'a text of four billion characters',
      poke(writeTiff({ ifd0: [{ tag: 271, ascii: 'Brindle' }] }), 14, 0xffffffff),
    ],
    [
      'a text that lies past the end',
      poke(writeTiff({ ifd0: [{ tag: 271, ascii: 'Brindle' }] }), 18, 0xfffffff0),
    ],
    [
      '65,535 tags in a block of one',
      Buffer.from(writeTiff({ ifd0: [{ tag: 274, short: 6 }] })).fill(0xff, 8, 10),
    ],
    ['nothing after its byte order', Buffer.from('II*\0', 'latin1')],
    ['no byte order', Buffer.alloc(64, 0x41)],
    [
      'a place divided by nothing',
      writeTiff({ gps: [{ tag: 1, ascii: 'N' }, { tag: 2, rationals: [[30, 0], [0, 0], [0, 0]] }, { tag: 3, ascii: 'W' }, { tag: 4, rationals: [[97, 1], [0, 1], [0, 1]] }] }), // biome-ignore format: one block
    ],
  ]

  for (const [name, tiff] of BLOCKS)
    test(`[photo damage] ${name} costs its facts and not the picture`, async () => {
      const { facts, drawing } = await look(withExif(await plain, tiff))
      expect(drawing.is).toBe('drawn')
      for (const [fact, expected] of [
        ['local', '2026-07-14T09:05:30'],
        ['orientation', 6],
      ] as const)
        if (facts[fact]?.is === 'given') expect(facts[fact]).toEqual({ is: 'given', value: expected })
      expect(facts.place?.is).not.toBe('given')
    })
})
