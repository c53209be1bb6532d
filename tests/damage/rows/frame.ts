import { toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { signNote } from '../../../api/domain/log/note.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { manifestText, pack, packMembers, remake, setText, signManifest } from '../record-kit.ts'
import { keyOf } from '../scripted-log.ts'
import { ALL, OURS, type Row, text, without } from './kit.ts'

/** The ZIP and its frame. */
export const FRAME_ROWS: readonly Row[] = [
  {
    damage: 'a byte after the end',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) => new Uint8Array([...(await pack(files)), 0]),
    expect: [['zip-malformed', '-']],
  },
  {
    damage: 'bytes before the first member',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) => new Uint8Array([...toUtf8('hello'), ...(await pack(files))]),
    expect: [['zip-malformed', /./]],
  },
  {
    damage: 'cut off after two thirds',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) =>
      pack(files).then((whole) => whole.slice(0, Math.floor((whole.length * 2) / 3))),
    expect: [
      ['zip-malformed', '-'],
      ['file-missing', 'manifest.note'],
    ],
  },
  {
    damage: 'no bytes at all',
    rule: 'L37',
    by: ALL,
    make: async () => new Uint8Array(),
    expect: [['zip-malformed', '-']],
  },
  {
    damage: 'a CRC that is not that of the bytes, in both places',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) => {
      const whole = Buffer.from(await pack(files))
      const [local, central] = [whole.indexOf('checkpoint.note'), whole.lastIndexOf('checkpoint.note')]
      whole[local - 30 + 14]! ^= 1
      whole[central - 46 + 16]! ^= 1
      return new Uint8Array(whole)
    },
    expect: [['zip-malformed', 'checkpoint.note']],
  },
  {
    damage: 'two members of one name',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) =>
      packMembers([
        ...[...files].map(([name, bytes]) => ({ name, bytes })),
        { name: 'record.json', bytes: toUtf8('{}') },
      ]),
    expect: [['zip-malformed', 'record.json']],
  },
  {
    damage: 'a name that leaves the folder',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) => {
      const bytes = await packMembers([
        ...[...files].map(([name, b]) => ({ name, bytes: b })),
        { name: 'aa/aa/evil.sh', bytes: toUtf8('x') },
      ])
      const [from, to] = [Buffer.from('aa/aa/evil.sh'), Buffer.from('../../evil.sh')]
      const buffer = Buffer.from(bytes)
      for (let at = buffer.indexOf(from); at >= 0; at = buffer.indexOf(from)) to.copy(buffer, at)
      return new Uint8Array(buffer)
    },
    expect: [['zip-malformed', '../../evil.sh']],
  },
  {
    damage: 'a file that nobody listed',
    rule: 'L37',
    by: ALL,
    make: async ({ files }) => pack(files.set('entries/000099.json', toUtf8('{}'))),
    expect: [['file-unlisted', 'entries/000099.json']],
  },
  {
    damage: 'a listed file of a name that no record has',
    rule: 'L39',
    by: ALL,
    make: async ({ good, files }) =>
      remake(files.set('READ-ME-FIRST.html', toUtf8('<b>all is well</b>')), good.log),
    expect: [['file-unlisted', 'READ-ME-FIRST.html']],
  },
  {
    damage: 'a manifest signed by nobody known',
    rule: 'L38',
    by: ALL,
    make: async ({ good, files }) => {
      const stranger = keyOf('a stranger')
      files.set(
        'manifest.note',
        toUtf8(
          await signNote(
            manifestText(files),
            { name: good.log.origin, publicKey: stranger.publicKey },
            stranger.sign,
            sha256,
          ),
        ),
      )
      return pack(files)
    },
    expect: [['manifest-signature', 'manifest.note']],
  },
  {
    damage: 'a manifest with its signature taken off',
    rule: 'L38',
    by: ALL,
    make: async ({ files }) => pack(files.set('manifest.note', toUtf8(manifestText(files)))),
    expect: [['manifest-malformed', 'manifest.note']],
  },
  {
    damage: 'a manifest out of order',
    rule: 'L38',
    by: ALL,
    make: async ({ good, files }) => {
      const lines = manifestText(files).trimEnd().split('\n')
      await signManifest(
        files,
        good.log,
        `${[...lines.slice(0, 6), ...lines.slice(6).reverse()].join('\n')}\n`,
      )
      return pack(files)
    },
    expect: [['manifest-malformed', 'manifest.note']],
  },
  {
    damage: 'a manifest of a later version',
    rule: 'L44',
    by: ALL,
    make: async ({ good, files }) => {
      await signManifest(
        files,
        good.log,
        manifestText(files).replace('screedbook-record/v1', 'screedbook-record/v2'),
      )
      return pack(files)
    },
    expect: [['format-unknown', 'manifest.note']],
  },
  {
    damage: 'sums that differ from the manifest',
    rule: 'L41.1',
    by: ALL,
    make: async ({ good, files }) => {
      setText(files, 'SHA256SUMS', (sums) => sums.replace(/^[0-9a-f]{8}/, '00000000'))
      const before = manifestText(files)
      await signManifest(
        files,
        good.log,
        before.replace(/^[0-9a-f]{64}(?= {2}SHA256SUMS$)/m, toHex(sha256(files.get('SHA256SUMS')!))),
      )
      return pack(files)
    },
    expect: [['sums-differ', 'SHA256SUMS']],
  },
  {
    damage: 'no log.vkey',
    rule: 'L39',
    by: ALL,
    make: without('log.vkey'),
    expect: [['file-missing', 'log.vkey']],
  },
  {
    damage: 'no page',
    rule: 'L39',
    by: ALL,
    make: without('record.pdf'),
    expect: [['file-missing', 'record.pdf']],
  },
  {
    damage: 'no table of water',
    rule: 'L39',
    by: OURS,
    make: without('tables/water.csv'),
    expect: [['file-missing', 'tables/water.csv']],
  },
  {
    damage: 'a key out of form',
    rule: 'L40',
    by: ALL,
    make: text('log.vkey', (key) => key.replace('+', '-')),
    expect: [['key-malformed', 'log.vkey']],
  },
]
