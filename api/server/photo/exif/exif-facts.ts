import type { Fact, PhotoFacts, PhotoPosition } from '../../../contract/messages/photo-view.ts'
import { readExifPosition } from './exif-position.ts'
import { readExifTime } from './exif-time.ts'
import { absent, given, readText, unreadable } from './fact.ts'

/**
 * The values of a file's EXIF tags by their numbers, as a child process read them, and whether it got through. Nothing
 * of it is trusted: the sender wrote the file.
 */
export type ExifTags = {
  readonly ifd0: Readonly<Record<string, unknown>>
  readonly exif: Readonly<Record<string, unknown>>
  readonly gps: Readonly<Record<string, unknown>>
  /** False where the file ends or breaks before its tags are all read: what is not found may have been there. */
  readonly whole: boolean
}

export const NO_TAGS: ExifTags = { ifd0: {}, exif: {}, gps: {}, whole: false }

/** Source: Exif 2.32 §4.6.4 (Make 271, Model 272, Orientation 274) and §4.6.5. */
export const readExifFacts = (tags: ExifTags): { facts: PhotoFacts; position: PhotoPosition } => {
  const ifAll = <T>(fact: Fact<T>): Fact<T> => (fact.is === 'absent' && !tags.whole ? unreadable() : fact)
  const time = readExifTime({
    dateTimeOriginal: tags.exif[36867],
    subSecTimeOriginal: tags.exif[37521],
    offsetTimeOriginal: tags.exif[36881],
  })
  const position = readExifPosition(tags.gps)
  return {
    facts: {
      time: {
        local: ifAll(time.local),
        subSec: ifAll(time.subSec),
        offset: ifAll(time.offset),
        utc: ifAll(time.utc),
      },
      orientation: ifAll(readOrientation(tags.ifd0[274])),
      make: ifAll(readText(tags.ifd0[271])),
      model: ifAll(readText(tags.ifd0[272])),
    },
    position: { place: ifAll(position.place), altitudeM: ifAll(position.altitudeM) },
  }
}

const readOrientation = (value: unknown): Fact<number> => {
  if (value === undefined) return absent
  return typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= 8
    ? given(value)
    : unreadable(value)
}
