import { hashEntry } from '../../../api/domain/entry/read.ts'
import { readHex } from '../../../api/domain/log/encoding.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { leavesOf, relink, withoutEntry } from '../forge.ts'
import { recordBytes } from '../make-good.ts'
import { remake, setText } from '../record-kit.ts'
import { ALL, author, countOf, entryFile, OURS, type Row, rename, text } from './kit.ts'

/** Entries. */
export const ENTRY_ROWS: readonly Row[] = [
  {
    damage: 'one entry changed, and the manifest made good',
    rule: 'L41.4',
    by: ALL,
    make: (ground) =>
      text(entryFile(countOf(ground.good, 'water 12')), (t) => t.replace('"text":"12"', '"text":"10"'))(
        ground,
      ),
    expect: [
      ['entry-differs', entryFile(16)],
      ['figures-differ', 'record.json'],
      ['table-differs', 'tables/water.csv'],
      ['pdf-differs', 'record.pdf'],
    ],
  },
  {
    damage: 'one entry changed, its hash mended and the thread relinked',
    rule: 'L41.3',
    by: ALL,
    make: async ({ good, files }) => {
      const count = countOf(good, 'water 12')
      const file = entryFile(count)
      setText(files, file, (t) => t.replace('"text":"12"', '"text":"10"'))
      const hash = hashEntry(files.get(file)!, sha256)
      relink(
        files,
        leavesOf(files).map((l) => (l.count === count ? { ...l, entryHash: readHex(hash)! } : l)),
      )
      rename(files, author(good, 'water 12'), `authors/${hash}.tlog-proof`)
      return remake(files, good.log)
    },
    expect: [
      ['inclusion-failed', 'thread.tlog-proof'],
      ['author-proof', /^authors\//],
    ],
  },
  {
    damage: 'two entries swapped',
    rule: 'L41.4',
    by: ALL,
    make: async ({ good, files }) => {
      const [a, b] = [files.get(entryFile(16))!, files.get(entryFile(18))!]
      return remake(files.set(entryFile(16), b).set(entryFile(18), a), good.log)
    },
    expect: [
      ['entry-differs', entryFile(16)],
      ['entry-differs', entryFile(18)],
    ],
  },
  {
    damage: 'two entries swapped with their leaves',
    rule: 'L41.3',
    by: ALL,
    make: async ({ good, files }) => {
      const [a, b] = [files.get(entryFile(16))!, files.get(entryFile(18))!]
      files.set(entryFile(16), b).set(entryFile(18), a)
      const leaves = leavesOf(files)
      relink(
        files,
        leaves.map((l) =>
          l.count === 16
            ? { ...l, entryHash: leaves[17]!.entryHash }
            : l.count === 18
              ? { ...l, entryHash: leaves[15]!.entryHash }
              : l,
        ),
      )
      return remake(files, good.log)
    },
    expect: [['inclusion-failed', 'thread.tlog-proof']],
  },
  {
    damage: 'an entry dropped from the files, its place left',
    rule: 'L43',
    by: OURS,
    make: async ({ good, files }) => {
      files.delete(entryFile(countOf(good, 'water 8')))
      return remake(files, good.log)
    },
    expect: [
      ['figures-differ', 'record.json'],
      ['table-differs', 'tables/entries.csv'],
      ['pdf-differs', 'record.pdf'],
    ],
  },
  {
    damage: 'an entry dropped, the rest relinked and renumbered',
    rule: 'L41.3',
    by: ALL,
    make: async ({ good, files }) => {
      const count = countOf(good, 'water 8')
      files.delete(entryFile(count))
      files.delete(author(good, 'water 8'))
      for (let later = count + 1; files.has(entryFile(later)); later++)
        rename(files, entryFile(later), entryFile(later - 1))
      relink(
        files,
        leavesOf(files)
          .filter((l) => l.count !== count)
          .map((l, i) => ({ ...l, count: i + 1 })),
      )
      return remake(files, good.log)
    },
    expect: [['inclusion-failed', 'thread.tlog-proof']],
  },
  {
    damage: 'an entry dropped by whoever holds the log’s key, with the whole log, page and figures made anew',
    rule: 'L41.8',
    by: ALL,
    make: async ({ good }) =>
      recordBytes({ ...good, log: await withoutEntry(good.log, good.named.get('water 8')!) }),
    expect: [['consistency-failed', /./]],
  },
  {
    damage: 'an entry with a blank more',
    rule: 'L4',
    by: ALL,
    make: text(entryFile(6), (t) => t.replace('{', '{ ')),
    expect: [
      ['entry-malformed', entryFile(6)],
      ['entry-differs', entryFile(6)],
    ],
  },
  {
    damage: 'an entry of a later release in the place of a known one',
    rule: 'L44',
    by: ALL,
    make: text(entryFile(6), (t) => t.replace('"v":1', '"v":2')),
    expect: [['entry-differs', entryFile(6)]],
  },
  {
    damage: 'an entry of another job',
    rule: 'L16',
    by: ALL,
    make: text(entryFile(6), (t) => t.replace(/"job":"./, '"job":"f')),
    expect: [
      ['entry-thread', entryFile(6)],
      ['entry-differs', entryFile(6)],
    ],
  },
  {
    damage: 'the manifest of another job',
    rule: 'L16',
    by: ALL,
    make: async ({ good, files }) => remake(files, good.log, { job: good.log.company }),
    expect: [['entry-thread', entryFile(1)]],
  },
]
