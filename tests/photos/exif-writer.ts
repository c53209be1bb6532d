/** One value of a tag, by EXIF's types. */
export type Written =
  | { readonly tag: number; readonly ascii: string }
  | { readonly tag: number; readonly short: number }
  | { readonly tag: number; readonly byte: number }
  | { readonly tag: number; readonly long: number }
  | { readonly tag: number; readonly rationals: readonly (readonly [number, number])[] }

export type Blocks = {
  readonly ifd0?: readonly Written[]
  readonly exif?: readonly Written[]
  readonly gps?: readonly Written[]
  /** Numbers of the tags that lead from the first block to the others. */
  readonly exifPointer?: number
  readonly gpsPointer?: number
  /** Where the first block says that a next one lies; 0 for none. */
  readonly next?: number
}

/** A TIFF block, little-endian, written tag by tag as we are told. Source: TIFF 6.0 (1992) §2. */
export const writeTiff = (blocks: Blocks): Buffer => {
  const { exifPointer = 34665, gpsPointer = 34853, next = 0 } = blocks
  // Twice: the pointers are known once the lengths are.
  const build = (exifAt: number, gpsAt: number) => {
    const ifd0 = [...(blocks.ifd0 ?? [])]
    if (blocks.exif) ifd0.push({ tag: exifPointer, long: exifAt })
    if (blocks.gps) ifd0.push({ tag: gpsPointer, long: gpsAt })
    const first = writeBlock(ifd0, 8, next)
    const second = blocks.exif ? writeBlock(blocks.exif, 8 + first.length, 0) : Buffer.alloc(0)
    const third = blocks.gps ? writeBlock(blocks.gps, 8 + first.length + second.length, 0) : Buffer.alloc(0)
    return { first, second, third }
  }
  const { first, second } = build(0, 0)
  const done = build(8 + first.length, 8 + first.length + second.length)
  return Buffer.concat([Buffer.from('II*\0\x08\0\0\0', 'latin1'), done.first, done.second, done.third])
}

const writeBlock = (tags: readonly Written[], at: number, next: number): Buffer => {
  const head = Buffer.alloc(2 + 12 * tags.length + 4)
  head.writeUInt16LE(tags.length, 0)
  head.writeUInt32LE(next, head.length - 4)
  const tail: Buffer[] = []
  let free = at + head.length
  for (const [i, written] of tags.entries()) {
    const { type, count, value } = valueIn(written)
    const entry = 2 + 12 * i
    head.writeUInt16LE(written.tag, entry)
    head.writeUInt16LE(type, entry + 2)
    head.writeUInt32LE(count, entry + 4)
    if (value.length <= 4) value.copy(head, entry + 8)
    else {
      head.writeUInt32LE(free, entry + 8)
      tail.push(value)
      free += value.length
    }
  }
  return Buffer.concat([head, ...tail])
}

const valueIn = (written: Written): { type: number; count: number; value: Buffer } => {
  if ('ascii' in written) {
    const value = Buffer.from(`${written.ascii}\0`, 'latin1')
    return { type: 2, count: value.length, value: value.length % 2 ? Buffer.concat([value, PAD]) : value }
  }
  if ('byte' in written) return { type: 1, count: 1, value: Buffer.from([written.byte]) }
  const value = Buffer.alloc('short' in written ? 2 : 'long' in written ? 4 : 8 * written.rationals.length)
  if ('short' in written) value.writeUInt16LE(written.short)
  else if ('long' in written) value.writeUInt32LE(written.long)
  else
    for (const [i, [over, under]] of written.rationals.entries()) {
      value.writeUInt32LE(over, 8 * i)
      value.writeUInt32LE(under, 8 * i + 4)
    }
  if ('short' in written) return { type: 3, count: 1, value }
  return 'long' in written ? { type: 4, count: 1, value } : { type: 5, count: value.length / 8, value }
}

const PAD = Buffer.from([0])

/** The JPEG with this TIFF block as its EXIF part, first after SOI. */
export const withExif = (jpeg: Uint8Array, tiff: Uint8Array): Uint8Array => {
  const length = Buffer.alloc(2)
  length.writeUInt16BE(2 + 6 + tiff.length)
  const app1 = Buffer.concat([Buffer.from([0xff, 0xe1]), length, Buffer.from('Exif\0\0', 'latin1'), tiff])
  return new Uint8Array(Buffer.concat([jpeg.subarray(0, 2), app1, jpeg.subarray(2)]))
}
