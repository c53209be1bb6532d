import { mkdtempSync, writeFileSync } from 'node:fs'
import { mkdir, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { framed } from './paper.ts'
import { PICTURES, type Picture } from './pictures.ts'

/**
 * Draws the demonstration's photos: `npx tsx seeds/drawings/draw.ts`. The files are committed, since letters come out
 * differently where other versions of the drawing libraries are, and a photo's hash stands in signed entries.
 */
const FOLDER = fileURLToPath(new URL('../jobs/tern-court/photos/', import.meta.url))
const FONTS = fileURLToPath(
  new URL('../../node_modules/@expo-google-fonts/atkinson-hyperlegible', import.meta.url),
)

/** The letters that came with the app, and no others. */
const useOwnFonts = (): void => {
  const folder = mkdtempSync(path.join(tmpdir(), 'screedbook-fonts-'))
  const file = path.join(folder, 'fonts.conf')
  writeFileSync(
    file,
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${FONTS}</dir><cachedir>${folder}</cachedir></fontconfig>`,
  )
  process.env.FONTCONFIG_FILE = file
}

/**
 * Where the file says a place, it is 48°52.6′ S, 123°23.6′ W, in the South Pacific as far from any land as one can be:
 * nobody's home. Not 0°, 0°, which readers of EXIF take for a receiver that knew nothing.
 */
const PLACE = {
  GPSLatitudeRef: 'S',
  GPSLatitude: '48/1 526/10 0/1',
  GPSLongitudeRef: 'W',
  GPSLongitude: '123/1 236/10 0/1',
} as const

const draw = async (picture: Picture, sharp: typeof import('sharp').default): Promise<Buffer> => {
  const { caption, inside, taken, orientation = 1, located } = picture
  const upright = await sharp(Buffer.from(framed(caption, inside)))
    .png()
    .toBuffer()
  // As a phone stores it that was held otherwise: turned, with the tag that says how to turn it back.
  const turned = sharp(upright).rotate({ 1: 0, 3: 180, 6: 270 }[orientation])
  const jpeg = turned.jpeg({ quality: 62, mozjpeg: true })
  if (taken === undefined) return jpeg.toBuffer()
  return jpeg
    .withExif({
      IFD0: { Make: 'drawn', Model: 'for the demo', Orientation: String(orientation) },
      IFD2: { DateTimeOriginal: taken, OffsetTimeOriginal: '-05:00' },
      ...(located ? { IFD3: PLACE } : {}),
    })
    .withMetadata({ orientation })
    .toBuffer()
}

useOwnFonts()
const { default: sharp } = await import('sharp')
await mkdir(FOLDER, { recursive: true })
let total = 0
for (const picture of PICTURES) {
  const bytes = await draw(picture, sharp)
  total += bytes.length
  await writeFile(path.join(FOLDER, `${picture.name}.jpg`), bytes)
}
process.stdout.write(`${PICTURES.length} pictures, ${Math.round(total / 1024)} KiB\n`)
