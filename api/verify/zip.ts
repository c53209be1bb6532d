import { equalBytes } from '../domain/log/encoding.ts'
import { nameFault } from '../domain/record/manifest.ts'
import type { Reader } from './reader.ts'
import { findDirectory, type ZipDirectory } from './zip-end.ts'

/** Where a member's bytes lie, and the CRC that the ZIP says they have. */
export type ZipMember = {
  readonly name: string
  readonly offset: number
  readonly size: number
  readonly crc: number
}
export type ZipFault = { readonly name: string; readonly detail: string }
export type Zip = { readonly members: readonly ZipMember[]; readonly faults: readonly ZipFault[] }

const CENTRAL_BYTES = 46
const LOCAL_BYTES = 30
/** A directory of more members than six digits can count is no record's. */
const MAX_DIRECTORY_BYTES = 256 * 1024 * 1024
const FULL32 = 0xffffffff
const STREAMED = 0x0008
const UTF8 = 0x0800
/** 1980-01-01 and a plain file of mode 0644: SPEC L37. */
const DATE = 0x0021
const ATTRIBUTES = 0x81a40000
/** What ZIP64 needs; anything above means a feature that a record does not use. */
const NEWEST_VERSION = 45

/** The members that the central directory names, where their form allows to find them, and all that is off. */
export const readZip = async (reader: Reader): Promise<Zip> => {
  const faults: ZipFault[] = []
  const fault = (name: string, detail: string): void => {
    faults.push({ name, detail })
  }
  const directory = await findDirectory(reader, (detail) => fault('-', detail))
  if (!directory) return { members: [], faults }
  const stated = await readDirectory(reader, directory, fault)
  const spans: Span[] = []
  for (const member of stated) {
    const span = await readLocal(reader, member, fault)
    if (span) spans.push(span)
  }
  return { members: inPlace(spans, directory, fault), faults }
}

type Fault = (name: string, detail: string) => void
type Stated = {
  readonly name: string
  readonly rawName: Uint8Array
  readonly version: number
  readonly flags: number
  readonly crc: number
  readonly size: number
  readonly offset: number
  readonly wide: boolean
}
type Span = ZipMember & { readonly begin: number; readonly end: number }

const latin1 = (bytes: Uint8Array): string => String.fromCharCode(...bytes.subarray(0, 1024))

const readDirectory = async (reader: Reader, directory: ZipDirectory, fault: Fault): Promise<Stated[]> => {
  const { offset, size, count } = directory
  if (size > MAX_DIRECTORY_BYTES) {
    fault('-', 'the central directory is larger than any record has')
    return []
  }
  const bytes = await reader.read(offset, size)
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const members: Stated[] = []
  let at = 0
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_BYTES > bytes.length || view.getUint32(at, true) !== 0x02014b50) {
      fault('-', 'the central directory holds fewer members than the end record says')
      return members
    }
    const nameLength = view.getUint16(at + 28, true)
    const extraLength = view.getUint16(at + 30, true)
    const commentLength = view.getUint16(at + 32, true)
    const after = at + CENTRAL_BYTES + nameLength + extraLength + commentLength
    const rawName = bytes.subarray(at + CENTRAL_BYTES, at + CENTRAL_BYTES + nameLength)
    const extra = bytes.subarray(
      at + CENTRAL_BYTES + nameLength,
      at + CENTRAL_BYTES + nameLength + extraLength,
    )
    const name = latin1(rawName)
    if (after > bytes.length) fault('-', 'the central directory ends within a member')
    const stated = readCentral(view, at, { name, rawName, extra }, fault)
    if (commentLength > 0) fault(name, 'the member has a comment')
    if (stated) members.push(stated)
    at = after
  }
  if (at !== bytes.length) fault('-', 'the central directory is not as long as the end record says')
  return members
}

const readCentral = (
  view: DataView,
  at: number,
  { name, rawName, extra }: { name: string; rawName: Uint8Array; extra: Uint8Array },
  fault: Fault,
): Stated | undefined => {
  const wrongName = nameFault(name)
  if (wrongName) fault(name, `the name ${wrongName}`)
  const u16 = (offset: number): number => view.getUint16(at + offset, true)
  const u32 = (offset: number): number => view.getUint32(at + offset, true)
  const version = u16(6)
  const flags = u16(8)
  if (version > NEWEST_VERSION) fault(name, 'the member needs a newer ZIP than records are made with')
  if (flags & ~(UTF8 | STREAMED)) fault(name, 'the member has flags that no record uses')
  if (u16(10) !== 0) fault(name, 'the member is compressed, not stored')
  if (u16(12) !== 0 || u16(14) !== DATE) fault(name, 'the member bears another time than 1980-01-01 00:00')
  if (u16(34) !== 0 || u16(36) !== 0) fault(name, 'the member lies on another part or has attributes of text')
  if (u32(38) !== ATTRIBUTES) fault(name, 'the member is not marked as a plain file of mode 0644')
  const wide = readWide([u32(24), u32(20), u32(42)], extra)
  if (!wide) {
    fault(name, 'the member has an extra field that is out of form or out of place')
    return undefined
  }
  const [size, packed, offset] = wide.values
  if (size !== packed) fault(name, 'the member is compressed, not stored')
  return { name, rawName, version, flags, crc: u32(16), size: packed!, offset: offset!, wide: wide.used }
}

/** Sizes and offset; those that read 0xFFFFFFFF stand in the ZIP64 field, and no other extra field may be there. */
const readWide = (
  values: readonly number[],
  extra: Uint8Array,
): { values: number[]; used: boolean } | undefined => {
  const wanted = values.filter((value) => value === FULL32).length
  if (wanted === 0) return extra.length === 0 ? { values: [...values], used: false } : undefined
  const view = new DataView(extra.buffer, extra.byteOffset, extra.byteLength)
  if (
    extra.length !== 4 + 8 * wanted ||
    view.getUint16(0, true) !== 1 ||
    view.getUint16(2, true) !== 8 * wanted
  )
    return undefined
  let at = 4
  const read = values.map((value) => {
    if (value !== FULL32) return value
    at += 8
    return Number(view.getBigUint64(at - 8, true))
  })
  const needed = read.some((value, i) => values[i] === FULL32 && value >= FULL32)
  return needed && read.every(Number.isSafeInteger) ? { values: read, used: true } : undefined
}

/** Compares a member's local header, and descriptor if it has one, with what the directory says of it. */
const readLocal = async (reader: Reader, stated: Stated, fault: Fault): Promise<Span | undefined> => {
  const { name, rawName, offset, size, crc, flags } = stated
  const head = await reader.read(offset, LOCAL_BYTES + rawName.length)
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  if (head.length < LOCAL_BYTES + rawName.length || view.getUint32(0, true) !== 0x04034b50) {
    fault(name, 'there is no local header where the directory says')
    return undefined
  }
  const streamed = (flags & STREAMED) !== 0
  const inHeader = streamed ? [0, 0, 0] : [crc, size, size]
  const agrees =
    (view.getUint16(4, true) === stated.version || stated.wide) &&
    view.getUint16(6, true) === flags &&
    view.getUint16(8, true) === 0 &&
    view.getUint16(10, true) === 0 &&
    view.getUint16(12, true) === DATE &&
    [14, 18, 22].every((at, i) => view.getUint32(at, true) === inHeader[i]) &&
    view.getUint16(26, true) === rawName.length &&
    equalBytes(head.subarray(LOCAL_BYTES), rawName)
  if (!agrees) fault(name, 'its local header and the central directory do not agree')
  if (view.getUint16(28, true) !== 0) fault(name, 'its local header has an extra field')
  const begin = offset + LOCAL_BYTES + view.getUint16(26, true) + view.getUint16(28, true)
  const end = streamed ? await readDescriptor(reader, stated, begin + size, fault) : begin + size
  return { name, offset: begin, size, crc, begin: offset, end }
}

/** Signature, CRC and both sizes; the sizes take 8 bytes each where they or the offset need ZIP64. */
const readDescriptor = async (reader: Reader, stated: Stated, at: number, fault: Fault): Promise<number> => {
  const bytes = await reader.read(at, stated.wide ? 24 : 16)
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const sizes = (): boolean =>
    stated.wide
      ? [8, 16].every((o) => Number(view.getBigUint64(o, true)) === stated.size)
      : [8, 12].every((o) => view.getUint32(o, true) === stated.size)
  const whole = bytes.length === (stated.wide ? 24 : 16)
  if (!whole || view.getUint32(0, true) !== 0x08074b50 || view.getUint32(4, true) !== stated.crc || !sizes())
    fault(stated.name, 'its data descriptor and the central directory do not agree')
  return at + (stated.wide ? 24 : 16)
}

/** Members lie one after another from the first byte to the directory; what lies over another one is not read. */
const inPlace = (spans: readonly Span[], directory: ZipDirectory, fault: Fault): ZipMember[] => {
  let reached = 0
  const members = new Map<string, ZipMember>()
  for (const span of [...spans].sort((a, b) => a.begin - b.begin)) {
    if (span.begin < reached || span.end > directory.offset) {
      fault(span.name, 'its bytes lie over those of something else')
      continue
    }
    if (span.begin > reached) fault(span.name, 'bytes lie before it that belong to nothing')
    reached = span.end
    if (members.has(span.name)) fault(span.name, 'two members have this name')
    else members.set(span.name, { name: span.name, offset: span.offset, size: span.size, crc: span.crc })
  }
  if (reached !== directory.offset)
    fault('-', 'the central directory does not begin where the last member ends')
  return [...members.values()]
}
