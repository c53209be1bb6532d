import sharp from 'sharp'
import { MOST_PIXELS, setUpSharp } from '../../photo/views/draw.ts'
import type { PrintAnswer, PrintJob } from './draw-prints.ts'

/** Longest sides: a print of 60 mm at 300 dots an inch and more, and a contact print. */
const SIDE = { large: 800, contact: 320 } as const
const QUALITY = 70

setUpSharp()

/** One photo after another, each as it comes: upright, sRGB, without any metadata. A photo that breaks off is not half drawn. */
process.on('message', async ({ bytes, print }: PrintJob) => {
  let answer: PrintAnswer
  try {
    const jpeg = await sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .autoOrient()
      .resize(SIDE[print], SIDE[print], { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .toColourspace('srgb')
      .jpeg({ quality: QUALITY })
      .toBuffer()
    answer = { jpeg: new Uint8Array(jpeg) }
  } catch {
    answer = {}
  }
  process.send?.(answer)
})
