import type { Fact, PhotoPosition } from '../../../contract/messages/photo-view.ts'
import { absent, given, unreadable } from './fact.ts'

/** Tags of the GPS part. Source: Exif 2.32 §4.6.6, table 15. */
const TAG = {
  latitudeRef: 1,
  latitude: 2,
  longitudeRef: 3,
  longitude: 4,
  altitudeRef: 5,
  altitude: 6,
} as const

/** Where a picture was taken: exact, personal, and as true as whoever sent the file. */
export const readExifPosition = (gps: Readonly<Record<string, unknown>>): PhotoPosition => ({
  place: readPlace(gps),
  altitudeM: readAltitude(gps[TAG.altitude], gps[TAG.altitudeRef]),
})

const readPlace = (gps: Readonly<Record<string, unknown>>): PhotoPosition['place'] => {
  const latitude = readDegrees(gps[TAG.latitude], { ref: gps[TAG.latitudeRef], refs: 'NS', most: 90 })
  const longitude = readDegrees(gps[TAG.longitude], { ref: gps[TAG.longitudeRef], refs: 'EW', most: 180 })
  if (latitude.is === 'absent' && longitude.is === 'absent') return absent
  if (latitude.is !== 'given' || longitude.is !== 'given') return unreadable()
  return given({ latitude: latitude.value, longitude: longitude.value })
}

type Side = { readonly ref: unknown; readonly refs: string; readonly most: number }

/** Degrees, minutes, seconds, and which side. Without the side there is no telling where. Units: degrees. */
const readDegrees = (value: unknown, { ref, refs, most }: Side): Fact<number> => {
  if (value === undefined) return absent
  const parts = readNumbers(value)
  const side = [...refs].indexOf(typeof ref === 'string' ? ref.trim() : '')
  if (parts?.length !== 3 || side < 0) return unreadable()
  const [degrees, minutes, seconds] = parts as [number, number, number]
  const all = degrees + minutes / 60 + seconds / 3600
  if (parts.some((part) => part < 0) || minutes >= 60 || seconds >= 60 || all > most) return unreadable()
  return given(toHundredMillionth(side === 1 ? -all : all))
}

/** Units: metres. The reference is 0 above and 1 below sea level; above where it is not said. */
const readAltitude = (value: unknown, ref: unknown): Fact<number> => {
  if (value === undefined) return absent
  const [below] = ref === undefined ? [0] : (readNumbers(ref) ?? [])
  if (typeof value !== 'number' || !Number.isFinite(value) || (below !== 0 && below !== 1))
    return unreadable()
  return given(toHundredMillionth(below === 1 ? -value : value))
}

const readNumbers = (value: unknown): readonly number[] | undefined => {
  const list = typeof value === 'number' ? [value] : value
  if (!Array.isArray(list) && !(list instanceof Uint8Array)) return undefined
  const numbers = Array.from(list as ArrayLike<unknown>)
  return numbers.every((n): n is number => typeof n === 'number' && Number.isFinite(n)) ? numbers : undefined
}

/** Finer than any receiver; keeps the noise of a division out. */
const toHundredMillionth = (value: number): number => Math.round(value * 1e8) / 1e8
