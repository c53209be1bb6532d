import { toHex } from '../../../api/domain/log/encoding.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { remake } from '../record-kit.ts'
import { ALL, entryFile, flip, photoName, type Row, without } from './kit.ts'

/** Photos. */
export const PHOTO_ROWS: readonly Row[] = [
  {
    damage: 'a photo swapped under its name',
    rule: 'L41.9',
    by: ALL,
    make: async ({ good, files }) =>
      remake(files.set(photoName(files), flip(files.get(photoName(files))!)), good.log),
    expect: [
      ['photo-differs', /^photos\//],
      ['photo-missing', entryFile(5)],
    ],
  },
  {
    damage: 'a photo swapped with its name mended',
    rule: 'L41.9',
    by: ALL,
    make: async ({ good, files }) => {
      const other = flip(files.get(photoName(files))!)
      files.delete(photoName(files))
      return remake(files.set(`photos/${toHex(sha256(other))}.jpg`, other), good.log)
    },
    expect: [
      ['photo-missing', entryFile(5)],
      ['file-unlisted', /^photos\//],
    ],
  },
  {
    damage: 'a photo left out',
    rule: 'L41.9',
    by: ALL,
    make: without(({ files }) => photoName(files)),
    expect: [
      ['photo-missing', entryFile(5)],
      ['figures-differ', 'record.json'],
    ],
  },
]
