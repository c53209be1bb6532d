import { toHex } from '../domain/log/encoding.ts'
import { crc32 } from './crc32.ts'
import type { Report } from './findings.ts'
import { partsOf, type Reader, readAhead } from './reader.ts'
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

/** A SHA-256 that is given its bytes part by part; the last part may be the only one. */
export type FileHash = {
  readonly add: (part: Uint8Array) => void
  readonly end: () => Promise<Uint8Array>
  /** Whether a part is still needed until the end. */
  readonly holdsParts: boolean
}
/** Begins the hash of a file of so many bytes: what suits a small one may not suit a large one. */
export type HashFile = (size: number) => FileHash

/** A photo's slice in memory at a time. */
const PART_BYTES = 4 * 1024 * 1024
/** What is fetched at once where many small files lie side by side. */
const AHEAD_BYTES = 256 * 1024
/** Small files are kept, up to so much in all; others are read again where they are needed. */
const KEPT_EACH = 64 * 1024
const KEPT_IN_ALL = 48 * 1024 * 1024

/** SPEC L37; each thing that is off is a `zip-malformed` of the member that it concerns. */
export const openArchive = async (source: Reader, hashFile: HashFile, report: Report): Promise<Archive> => {
  const reader = readAhead(source, AHEAD_BYTES)
  const { members, faults } = await readZip(reader).catch(beyondTheFile)
  for (const { name, detail } of faults) report('zip-malformed', name, detail)
  const byName = new Map(members.map((member) => [member.name, member]))
  const hashes = new Map<string, string>()
  const kept = new Map<string, Uint8Array>()
  let keptInAll = 0
  for (const { name, offset, size, crc } of members) {
    const hash = hashFile(size)
    const held: Uint8Array[] = []
    let found = 0
    for await (const part of partsOf(reader, offset, size, PART_BYTES)) {
      hash.add(part)
      found = crc32(part, found)
      if (size <= KEPT_EACH && part.length === size && keptInAll + size <= KEPT_IN_ALL) {
        kept.set(name, part)
        keptInAll += size
      } else if (hash.holdsParts) held.push(part)
      else reader.release?.(part)
    }
    if (found !== crc) report('zip-malformed', name, 'its CRC is not that of its bytes')
    hashes.set(name, toHex(await hash.end()))
    for (const part of held) reader.release?.(part)
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
