import { toHex } from '../domain/log/encoding.ts'
import type { Sha256 } from '../domain/world.ts'
import { crc32 } from './crc32.ts'
import type { Report } from './findings.ts'
import type { Reader } from './reader.ts'
import { readZip, type Zip } from './zip.ts'

/** The record's files: each was read once, and its hash and CRC taken. */
export type Archive = {
  /** False where no member was found and it does not begin as a ZIP does: there is nothing further to check. */
  readonly isZip: boolean
  readonly names: readonly string[]
  readonly has: (name: string) => boolean
  readonly hashOf: (name: string) => string | undefined
  /** A file's bytes; undefined where it is not there. */
  readonly bytes: (name: string) => Promise<Uint8Array | undefined>
}

/** Files up to this size are kept; photos are read again where they are needed. */
const KEPT_BYTES = 1024 * 1024

/** SPEC L37; each thing that is off is a `zip-malformed` of the member that it concerns. */
export const openArchive = async (reader: Reader, sha256: Sha256, report: Report): Promise<Archive> => {
  const { members, faults } = await readZip(reader).catch(beyondTheFile)
  for (const { name, detail } of faults) report('zip-malformed', name, detail)
  const byName = new Map(members.map((member) => [member.name, member]))
  const hashes = new Map<string, string>()
  const kept = new Map<string, Uint8Array>()
  for (const { name, offset, size, crc } of members) {
    const bytes = await reader.read(offset, size)
    if (crc32(bytes) !== crc) report('zip-malformed', name, 'its CRC is not that of its bytes')
    hashes.set(name, toHex(sha256(bytes)))
    if (size <= KEPT_BYTES) kept.set(name, bytes)
  }
  return {
    isZip: members.length > 0 || (await beginsAsZip(reader)),
    names: [...byName.keys()].sort(),
    has: (name) => byName.has(name),
    hashOf: (name) => hashes.get(name),
    bytes: async (name) => {
      const member = byName.get(name)
      return kept.get(name) ?? (member && reader.read(member.offset, member.size))
    },
  }
}

/** Every part of a ZIP begins with PK, so a record that was cut off does too. */
const beginsAsZip = async (reader: Reader): Promise<boolean> => {
  const [p, k] = await reader.read(0, 2)
  return p === 0x50 && k === 0x4b
}

/** A number that points outside of the file ends the reading of its directory; a reader's own failure goes on up. */
const beyondTheFile = (error: unknown): Zip => {
  if (!(error instanceof RangeError)) throw error
  return {
    members: [],
    faults: [{ name: '-', detail: 'a number in its directory points outside of the file' }],
  }
}
