import exifr from 'exifr'
import { type ExifTags, NO_TAGS } from '../exif/exif-facts.ts'
import { readFileHeader } from '../exif/file-header.ts'

/**
 * Tags by number and values as they stand. exifr's own reviving of dates uses the zone of this machine and ignores the
 * offset (measured 2026-11-24), so it stays off.
 */
const OPTIONS = {
  tiff: true,
  ifd0: { pick: [271, 272, 274] },
  exif: { pick: [36867, 37521, 36881] },
  gps: { pick: [1, 2, 3, 4, 5, 6] },
  ifd1: false,
  interop: false,
  makerNote: false,
  userComment: false,
  xmp: false,
  icc: false,
  iptc: false,
  jfif: false,
  ihdr: false,
  mergeOutput: false,
  translateKeys: false,
  translateValues: false,
  reviveValues: false,
  silentErrors: true,
} as const

/** Runs in a child process alone: a file may make a parser loop, or ask for more memory than there is. */
export const readExif = async (bytes: Uint8Array): Promise<ExifTags> => {
  const { whole, tiff } = readFileHeader(bytes)
  if (isWebp(bytes) && !tiff) return { ...NO_TAGS, whole }
  let read: unknown
  try {
    read = await exifr.parse(tiff ?? bytes, OPTIONS as object)
  } catch {
    return NO_TAGS
  }
  const blocks = isObject(read) ? read : {}
  return {
    ifd0: plain(blocks.ifd0),
    exif: plain(blocks.exif),
    gps: plain(blocks.gps),
    whole: whole && !('errors' in blocks),
  }
}

const isWebp = (bytes: Uint8Array): boolean => bytes[0] === 0x52

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null

/** Numbers, short texts and short lists: what the facts are read from, and nothing that fills the message. */
const plain = (block: unknown): Record<string, unknown> => {
  if (!isObject(block)) return {}
  return Object.fromEntries(Object.entries(block).map(([tag, value]) => [tag, short(value)]))
}

const short = (value: unknown): unknown => {
  if (typeof value === 'string') return value.slice(0, 200)
  if (typeof value === 'number') return value
  if (Array.isArray(value) || value instanceof Uint8Array) return Array.from(value).slice(0, 8)
  return null
}
