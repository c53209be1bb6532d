import type { Reader } from './reader.ts'

/** Where the central directory lies, and how many members it says it has. */
export type ZipDirectory = { readonly offset: number; readonly size: number; readonly count: number }

const END_BYTES = 22
const LOCATOR_BYTES = 20
const END64_BYTES = 56
const FULL16 = 0xffff
const FULL32 = 0xffffffff

/** The end record(s), which stand at the very end: no comment, and no byte after them (SPEC L37). */
export const findDirectory = async (
  reader: Reader,
  fault: (detail: string) => void,
): Promise<ZipDirectory | undefined> => {
  const end = await findEnd(reader, fault)
  if (end === undefined) return undefined
  const view = viewOf(await reader.read(end, END_BYTES))
  const plain = {
    count: view.getUint16(10, true),
    size: view.getUint32(12, true),
    offset: view.getUint32(16, true),
  }
  if (
    view.getUint16(4, true) !== 0 ||
    view.getUint16(6, true) !== 0 ||
    view.getUint16(8, true) !== plain.count
  )
    fault('the ZIP is one of several parts')
  const [directory, from] = await readEnd64(reader, end, plain, fault)
  if (!directory) return undefined
  if (directory.offset + directory.size !== from)
    fault('the central directory does not end where the end record begins')
  if (directory.offset + directory.size > reader.size) {
    fault('the central directory goes beyond the file')
    return undefined
  }
  return directory
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

const findEnd = async (reader: Reader, fault: (detail: string) => void): Promise<number | undefined> => {
  const from = Math.max(0, reader.size - END_BYTES - FULL16)
  const tail = await reader.read(from, reader.size - from)
  for (let at = tail.length - END_BYTES; at >= 0; at--) {
    if (tail[at] !== 0x50 || viewOf(tail).getUint32(at, true) !== 0x06054b50) continue
    if (at !== tail.length - END_BYTES || viewOf(tail).getUint16(at + 20, true) !== 0)
      fault('there is a comment, or bytes after the end record')
    return from + at
  }
  fault('this is no ZIP file, or its end is missing')
  return undefined
}

type Plain = { readonly count: number; readonly size: number; readonly offset: number }

/** The ZIP64 end record, only where a number does not fit the plain one; gives where the first end record begins. */
const readEnd64 = async (
  reader: Reader,
  end: number,
  plain: Plain,
  fault: (detail: string) => void,
): Promise<[ZipDirectory | undefined, number]> => {
  const full = plain.count === FULL16 || plain.size === FULL32 || plain.offset === FULL32
  const locator =
    end >= LOCATOR_BYTES ? viewOf(await reader.read(end - LOCATOR_BYTES, LOCATOR_BYTES)) : undefined
  const hasLocator = locator?.getUint32(0, true) === 0x07064b50
  if (!full || !hasLocator) return [plain, end]
  const at = Number(locator.getBigUint64(8, true))
  const bytes = await reader.read(at, END64_BYTES)
  if (at + END64_BYTES !== end - LOCATOR_BYTES || bytes.length < END64_BYTES) {
    fault('the ZIP64 end record is not where its locator says')
    return [undefined, end]
  }
  const view = viewOf(bytes)
  const [here, count, size, offset] = [24, 32, 40, 48].map((o) => Number(view.getBigUint64(o, true)))
  const formed =
    view.getUint32(0, true) === 0x06064b50 &&
    Number(view.getBigUint64(4, true)) === END64_BYTES - 12 &&
    view.getUint32(16, true) === 0 &&
    view.getUint32(20, true) === 0 &&
    here === count &&
    locator.getUint32(4, true) === 0 &&
    locator.getUint32(16, true) === 1
  const agrees = (short: number, long: number, most: number): boolean =>
    short === Math.min(long, most) || short === most
  const fits =
    agrees(plain.count, count!, FULL16) &&
    agrees(plain.size, size!, FULL32) &&
    agrees(plain.offset, offset!, FULL32)
  const needed = count! >= FULL16 || size! >= FULL32 || offset! >= FULL32
  if (!formed || !fits || !needed) fault('the ZIP64 end record is out of form, or where none is needed')
  return [{ count: count!, size: size!, offset: offset! }, at]
}
