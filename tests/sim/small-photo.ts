import type { Chance } from '../kit/chance.ts'

/** Bytes that begin like a JPEG; long enough, now and then, to need several parts. */
export const smallPhoto = (chance: Chance): Uint8Array => {
  const bytes = chance.bytes(chance.chance(0.2) ? 1_200 : 40 + chance.below(200))
  bytes.set([0xff, 0xd8, 0xff, 0xe0])
  return bytes
}
