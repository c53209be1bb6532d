import sharp, { type Sharp } from 'sharp'

/** Larger than any phone's sensor in its everyday mode; a 256-megapixel PNG of one colour fits in 776 KB. */
export const MOST_PIXELS = 50e6
/** Longest sides. A list's row on a phone held twice as dense, and a whole screen. */
const SMALL_PX = 400
const LARGE_PX = 1600
const QUALITY = 78

export type Rendition = {
  readonly width: number
  readonly height: number
  readonly jpeg: Uint8Array
}
export type Drawn =
  | { readonly is: 'drawn'; readonly small: Rendition; readonly large: Rendition }
  | {
      readonly is: 'failed'
      readonly why: 'too-many-pixels'
      readonly width: number
      readonly height: number
      readonly refusedMs: number
    }
  | { readonly is: 'failed'; readonly why: 'damaged' }

/** One photo a process: nothing to cache, one thread, and no decoder but the three that photos need. */
export const setUpSharp = (): void => {
  sharp.cache({ files: 0 })
  sharp.concurrency(1)
  sharp.block({ operation: ['VipsForeignLoad'] })
  sharp.unblock({
    operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
  })
}

/**
 * The two renditions of a photo: upright, sRGB, without any metadata. One decode; the small one is made from the large.
 * The size is read from the header first, since the header is all that a bomb needs to be known by. A photo that breaks
 * off is not half drawn: grey where the picture was lost would look like the picture.
 */
export const draw = async (bytes: Uint8Array, mono: () => number): Promise<Drawn> => {
  const started = mono()
  try {
    const { width = 0, height = 0 } = await sharp(bytes, { limitInputPixels: false }).metadata()
    if (width * height > MOST_PIXELS)
      return { is: 'failed', why: 'too-many-pixels', width, height, refusedMs: mono() - started }
    const large = await sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .autoOrient()
      .resize(LARGE_PX, LARGE_PX, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .toColourspace('srgb')
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true })
    const { width: w, height: h, channels } = large.info
    // Raw pixels carry no orientation and no metadata: what is drawn from here on can't have any.
    const upright = sharp(large.data, { raw: { width: w, height: h, channels } })
    return {
      is: 'drawn',
      large: await encode(upright.clone()),
      small: await encode(upright.resize(SMALL_PX, SMALL_PX, { fit: 'inside', withoutEnlargement: true })),
    }
  } catch {
    return { is: 'failed', why: 'damaged' }
  }
}

const encode = async (image: Sharp): Promise<Rendition> => {
  const { data, info } = await image.jpeg({ quality: QUALITY }).toBuffer({ resolveWithObject: true })
  return { width: info.width, height: info.height, jpeg: new Uint8Array(data) }
}
