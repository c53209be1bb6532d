/** Eight tables: the CRC of a byte followed by 0 to 7 others, so that eight bytes go in one turn. */
const TABLES = (() => {
  const tables = Array.from({ length: 8 }, () => new Uint32Array(256))
  const [first] = tables as [Uint32Array]
  for (let n = 0; n < 256; n++) {
    let c = n
    for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1
    first[n] = c >>> 0
  }
  for (let t = 1; t < 8; t++)
    for (let n = 0; n < 256; n++) {
      const before = tables[t - 1]![n]!
      tables[t]![n] = (before >>> 8) ^ first[before & 0xff]!
    }
  return tables as [
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
  ]
})()

/**
 * CRC-32 as ZIP has it; `before` is the CRC of the bytes that came before these.
 * Source: APPNOTE 6.3.9 §4.4.7; polynomial 0xEDB88320, reflected.
 */
export const crc32 = (bytes: Uint8Array, before = 0): number => {
  const [t0, t1, t2, t3, t4, t5, t6, t7] = TABLES
  let crc = ~before
  let i = 0
  for (const end = bytes.length - 7; i < end; i += 8) {
    crc ^= bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24)
    crc =
      t7[crc & 0xff]! ^
      t6[(crc >>> 8) & 0xff]! ^
      t5[(crc >>> 16) & 0xff]! ^
      t4[crc >>> 24]! ^
      t3[bytes[i + 4]!]! ^
      t2[bytes[i + 5]!]! ^
      t1[bytes[i + 6]!]! ^
      t0[bytes[i + 7]!]!
  }
  for (; i < bytes.length; i++) crc = t0[(crc ^ bytes[i]!) & 0xff]! ^ (crc >>> 8)
  return ~crc >>> 0
}
