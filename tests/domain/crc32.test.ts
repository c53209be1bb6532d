import { crc32 as zlib } from 'node:zlib'
import { expect, test } from 'vitest'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import { crc32 } from '../../api/verify/crc32.ts'
import { partsOf, readAhead, readerOf } from '../../api/verify/reader.ts'
import { createChance } from '../kit/chance.ts'

test('[L37] the CRC of "123456789" is CBF43926 (the check value of CRC-32/ISO-HDLC, as catalogued)', () => {
  expect(crc32(toUtf8('123456789'))).toBe(0xcbf43926)
})

test('[L37] the CRC is that of zlib for every length and cut, and goes on from what came before', () => {
  const { bytes } = createChance(5)
  const whole = bytes(97)
  for (let length = 0; length <= whole.length; length++) {
    const some = whole.subarray(0, length)
    expect(crc32(some)).toBe(zlib(some))
    const cut = Math.floor(length / 3)
    expect(crc32(some.subarray(cut), crc32(some.subarray(0, cut)))).toBe(zlib(some))
  }
})

test('[L37] a reader that fetches ahead gives the same bytes as the file, at any place and to its end', async () => {
  const { bytes } = createChance(6)
  const whole = bytes(1000)
  let fetches = 0
  const plain = readerOf(whole)
  const counted = {
    size: plain.size,
    read: (offset: number, length: number) => {
      fetches++
      return plain.read(offset, length)
    },
  }
  const ahead = readAhead(counted, 300)
  for (let at = 0; at < 1000; at += 7) expect(await ahead.read(at, 11)).toEqual(whole.slice(at, at + 11))
  expect(fetches).toBeLessThan(6)
  expect(await ahead.read(990, 50)).toEqual(whole.slice(990))
  expect(await ahead.read(100, 400)).toEqual(whole.slice(100, 500))
  const parts: Uint8Array[] = []
  for await (const part of partsOf(ahead, 5, 905, 400)) parts.push(part)
  expect(parts.map((part) => part.length)).toEqual([400, 400, 105])
  expect(Buffer.concat(parts)).toEqual(Buffer.from(whole.slice(5, 910)))
})
