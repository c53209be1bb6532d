/** The parts of a photo's file before its picture, walked without trusting a length. */
export type FileHeader = {
  /** Every part up to the picture was there. */
  readonly whole: boolean
  /** The TIFF block of a WebP's EXIF part: exifr reads such a block, but not WebP. */
  readonly tiff: Uint8Array | undefined
}

/** Of HEIC nothing is walked here: exifr does, and says where it breaks. */
export const readFileHeader = (bytes: Uint8Array): FileHeader => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes[0] === 0xff) return { whole: isWholeJpeg(view), tiff: undefined }
  if (bytes[0] === 0x89) return { whole: isWholePng(view), tiff: undefined }
  if (bytes[0] === 0x52) return readWebp(bytes, view)
  return { whole: true, tiff: undefined }
}

/** Markers with their lengths from SOI to SOS or EOI. Source: ITU-T T.81 (1992) §B.1.1. */
const isWholeJpeg = (view: DataView): boolean => {
  for (let at = 2; at + 4 <= view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return false
    const marker = view.getUint8(at + 1)
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === 0xda || marker === 0xd9) return true
    // A length counts itself: less than 2 would stand still.
    const length = view.getUint16(at + 2)
    if (length < 2) return false
    at += 2 + length
  }
  return false
}

/** Chunks up to IEND. eXIf may come after the picture. Source: PNG (Third Edition, 2025) §5.3. */
const isWholePng = (view: DataView): boolean => {
  for (let at = 8; at + 12 <= view.byteLength; ) {
    if (view.getUint32(at + 4) === 0x49454e44) return true
    at += 12 + view.getUint32(at)
  }
  return false
}

/** Source: RFC 9649 (2024) §2.3–2.7. Chunks are padded to an even length. */
const readWebp = (bytes: Uint8Array, view: DataView): FileHeader => {
  let tiff: Uint8Array | undefined
  let at = 12
  while (at + 8 <= view.byteLength) {
    const length = view.getUint32(at + 4, true)
    if (at + 8 + length > view.byteLength) return { whole: false, tiff }
    if (view.getUint32(at) === 0x45584946) tiff ??= withoutPrefix(bytes.subarray(at + 8, at + 8 + length))
    at += 8 + length + (length % 2)
  }
  return { whole: at >= view.byteLength, tiff }
}

/** Some writers keep the six bytes `Exif` that JPEG needs. */
const withoutPrefix = (block: Uint8Array): Uint8Array =>
  block[0] === 0x45 && block[1] === 0x78 ? block.subarray(6) : block
