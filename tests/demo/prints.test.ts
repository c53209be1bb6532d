import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import type { Block } from '../../api/domain/record/page/blocks.ts'
import { picturesOf } from '../../api/domain/record/page/blocks.ts'
import type { Page } from '../../api/domain/record/page/page.ts'
import { drawPrints } from '../../api/server/record/typeset/draw-prints.ts'
import { typeset } from '../../api/server/record/typeset/typeset.ts'
import { pageDifference } from '../../api/verify/page-text.ts'

/** A camera's own file, on its side, with a position in it. */
const CAMERA = readFileSync(createRequire(import.meta.url).resolve('jpeg-exif/test/IMG_0001.JPG'))
const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const photo = hashOf(CAMERA)
const opened =
  (...all: readonly Uint8Array[]) =>
  async (hash: string) => {
    const bytes = all.find((one) => hashOf(one) === hash)
    return bytes && new Blob([new Uint8Array(bytes)]).stream()
  }
const pageWith = (...hashes: readonly string[]): Page => ({
  title: 'Prints',
  footer: '{page} of {pages}',
  blocks: [
    {
      is: 'prints',
      across: 4,
      prints: hashes.map((hash) => ({ photo: hash, print: 'contact', lines: ['a caption', 'another'] })),
    } satisfies Block,
  ],
})

describe('a photo as it is printed', () => {
  test('[record] is upright, no larger than asked, without the camera’s metadata, and the same bytes each time', async () => {
    const draw = (print: 'large' | 'contact') => drawPrints([{ photo, print }], opened(CAMERA))
    const first = (await draw('large')).get(photo)!
    const again = (await draw('large')).get(photo)!
    expect(Buffer.compare(first, again)).toBe(0)
    const { width, height, exif, orientation } = await sharp(first).metadata()
    expect(Math.max(width, height)).toBeLessThanOrEqual(800)
    expect([exif, orientation]).toEqual([undefined, undefined])
    const lying = await sharp({ create: { width: 900, height: 300, channels: 3, background: '#888' } })
      .withMetadata({ orientation: 6 })
      .jpeg()
      .toBuffer()
    const upright = (await drawPrints([{ photo: hashOf(lying), print: 'large' }], opened(lying))).get(
      hashOf(lying),
    )!
    expect(await sharp(upright).metadata()).toMatchObject({ width: 267, height: 800 })
    const contact = await sharp((await draw('contact')).get(photo)!).metadata()
    expect(Math.max(contact.width, contact.height)).toBeLessThanOrEqual(320)
  })

  test('[record] a file that can’t be drawn is an empty frame, and the others and every caption are there', async () => {
    const broken = CAMERA.subarray(0, CAMERA.length / 2)
    const page = pageWith(hashOf(broken), photo, 'ff'.repeat(32))
    const prints = await drawPrints(picturesOf(page.blocks), opened(broken, CAMERA))
    expect([...prints.keys()]).toEqual([photo])
    const pdf = await typeset(page, { language: 'en', createdAt: 0, prints })
    if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
    expect(await pageDifference(page, () => readPdfText(pdf.value))).toBeUndefined()
    const twice = await typeset(page, { language: 'en', createdAt: 0, prints })
    expect(twice.ok && Buffer.compare(twice.value, pdf.value)).toBe(0)
  })
})
