import { MAX_PHOTO_BYTES } from '../../api/contract/messages/photo.ts'
import type { BodyOf } from '../../api/domain/entry/registry.ts'
import { fail, ok, type Result } from '../../api/domain/result.ts'

export type PhotoType = BodyOf<'photo.taken'>['type']
export type PhotoBytes = { readonly bytes: Uint8Array; readonly type: PhotoType }

/**
 * What the camera gave, read once: iPhones encode a photo anew each time that the same file is picked or read.
 * The type is told by the bytes, never by the file's name or by what the browser claims.
 */
export const readPhotoFile = async (
  file: File,
): Promise<Result<PhotoBytes, 'photo-too-large' | 'photo-kind'>> => {
  if (file.size > MAX_PHOTO_BYTES) return fail('photo-too-large')
  const bytes = new Uint8Array(await file.arrayBuffer())
  const type = photoTypeOf(bytes)
  return type ? ok({ bytes, type }) : fail('photo-kind')
}

/** Sources: JPEG ITU-T T.81 B.1.1.3; PNG (2003) 5.2; WebP container (RFC 9649) 2.4; HEIF ISO/IEC 23008-12 brands. */
export const photoTypeOf = (bytes: Uint8Array): PhotoType | undefined => {
  const ascii = (from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to))
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'image/jpeg'
  if (bytes[0] === 0x89 && ascii(1, 8) === 'PNG\r\n\u001a\n') return 'image/png'
  if (ascii(0, 4) === 'RIFF' && ascii(8, 12) === 'WEBP') return 'image/webp'
  if (ascii(4, 8) === 'ftyp' && HEIC_BRANDS.has(ascii(8, 12))) return 'image/heic'
  return undefined
}

const HEIC_BRANDS = new Set(['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1'])
