import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { writeCsv } from '../../api/domain/record/csv.ts'
import { nameFault, readManifest, writeManifest, writeSums } from '../../api/domain/record/manifest.ts'
import { readCsv } from './record-kit.ts'

const HASH = 'ab'.repeat(32)
const manifest = {
  origin: 'screedbook/019daf7b-8100-7a91-b947-c91d99580ddc',
  job: '019daf96-f840-7677-b8ba-20d9aef4195b',
  checkpoint: { size: 33, root: new Uint8Array(32).fill(9) },
  made: Date.UTC(2026, 3, 21, 16, 0, 11, 125),
  release: '0.1.0',
  files: [
    { name: 'log.vkey', sha256: HASH },
    { name: 'SHA256SUMS', sha256: HASH },
  ],
}

describe('the manifest', () => {
  test('[L38] is read back as it was written, its files sorted by name', () => {
    const read = readManifest(writeManifest(manifest))
    expect(read).toMatchObject({
      ok: true,
      value: { ...manifest, files: [{ name: 'SHA256SUMS' }, { name: 'log.vkey' }], faults: [] },
    })
  })

  test.each([
    ['a line left out', (t: string) => t.replace(/^made.*\n/m, '')],
    ['a day that is none', (t: string) => t.replace('2026-04-21T', '2026-02-30T')],
    ['a checkpoint with a leading zero', (t: string) => t.replace('checkpoint 33', 'checkpoint 033')],
    ['a name twice', (t: string) => `${t}${t.split('\n').at(-2)}\n`],
    ['a name that climbs', (t: string) => t.replace('log.vkey', '../log.vkey')],
    ['itself in the list', (t: string) => t.replace('log.vkey', 'manifest.note')],
    ['a hash in capitals', (t: string) => t.replace(HASH, HASH.toUpperCase())],
  ])('[L38] with %s is out of form', (_, change) => {
    const read = readManifest(change(writeManifest(manifest)))
    expect(read.ok && read.value.faults.length > 0).toBe(true)
  })

  test('[L39] SHA256SUMS has a line a file, in the form of sha256sum', () => {
    expect(writeSums(manifest.files)).toBe(`${HASH}  log.vkey\n${HASH}  SHA256SUMS\n`)
  })

  test.each(['', '/a', 'a//b', './a', 'a/../b', 'a b', 'ä', 'a\\b', 'C:a'])(
    '[L37] no file may be named %j',
    (name) => {
      expect(nameFault(name)).toBeDefined()
    },
  )
})

describe('a table', () => {
  test('[RFC 4180] quotes what needs it and ends each line with CR and LF', () => {
    expect(
      writeCsv(
        ['a', 'b'],
        [
          ['x,y', 'say "no"'],
          ['two\nlines', 7],
        ],
      ),
    ).toBe('a,b\r\n"x,y","say ""no"""\r\n"two\nlines",7\r\n')
  })

  test.each(['=1+1', '+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1'])(
    '[record] never lets a spreadsheet run %j',
    (text) => {
      expect(
        writeCsv(['a'], [[text]])
          .split('\r\n')[1]!
          .replace(/^"/, ''),
      ).toMatch(/^'/)
    },
  )

  test('[record] leaves numbers as they are, also below zero', () => {
    expect(writeCsv(['a', 'b'], [['-2.5', -3]])).toBe('a,b\r\n-2.5,-3\r\n')
  })

  test('[RFC 4180] has as many cells in each line as in its head, whatever is in them', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.string(), fc.string({ unit: 'binary' }))), (rows) => {
        expect(readCsv(writeCsv(['a', 'b'], rows)).every((row) => row.length === 2)).toBe(true)
      }),
      { seed: 7 },
    )
  })
})
