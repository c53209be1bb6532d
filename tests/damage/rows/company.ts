import { toBase64 } from '../../../api/domain/log/encoding.ts'
import { leavesOf } from '../forge.ts'
import { remake } from '../record-kit.ts'
import { keyOf } from '../scripted-log.ts'
import { ALL, entryFile, quotedLeaf, quotedOf, type Row, text, without } from './kit.ts'

/** The company’s own affairs. */
export const COMPANY_ROWS: readonly Row[] = [
  {
    damage: 'the founding left out',
    rule: 'L28',
    by: ALL,
    make: async ({ good, files }) => {
      const hash = quotedOf(good, 'company.founded')
      for (const end of ['json', 'leaf', 'tlog-proof']) files.delete(`company/${hash}.${end}`)
      return remake(files, good.log)
    },
    expect: [['founding-missing', '-']],
  },
  {
    damage: 'a founding that names another key',
    rule: 'L28',
    by: ALL,
    make: (ground) =>
      text(`company/${quotedOf(ground.good, 'company.founded')}.json`, (t) =>
        t.replace(/"logKey":"[^"]*"/, `"logKey":"${toBase64(keyOf('x').publicKey)}"`),
      )(ground),
    expect: [
      ['founding-differs', /^company\//],
      ['entry-differs', /^company\//],
    ],
  },
  {
    damage: 'a person renamed',
    rule: 'L41.5',
    by: ALL,
    make: (ground) =>
      text(`company/${quotedOf(ground.good, 'person.added')}.json`, (t) => t.replace('Marisol', 'Marisel'))(
        ground,
      ),
    expect: [
      ['entry-differs', /^company\//],
      ['figures-differ', 'record.json'],
    ],
  },
  {
    damage: 'a quoted entry without its leaf',
    rule: 'L39',
    by: ALL,
    make: without(({ good }) => `company/${quotedOf(good, 'person.added')}.leaf`),
    expect: [['file-missing', /^company\/.*leaf$/]],
  },
  {
    damage: 'the leaves of two quoted entries swapped',
    rule: 'L41.5',
    by: ALL,
    make: async ({ good, files }) => {
      const [a, b] = [quotedOf(good, 'person.added'), quotedOf(good, 'owner.named')].map(
        (hash) => `company/${hash}.leaf`,
      ) as [string, string]
      const [x, y] = [files.get(a)!, files.get(b)!]
      return remake(files.set(a, y).set(b, x), good.log)
    },
    expect: [
      ['entry-differs', /^company\/.*leaf$/],
      ['inclusion-failed', /^company\/.*tlog-proof$/],
    ],
  },
  {
    damage: 'a quoted leaf of another tag',
    rule: 'L41.5',
    by: ALL,
    make: (ground) => quotedLeaf(ground, 'person.added', (leaf) => ({ ...leaf, tag: new Uint8Array(16) })),
    expect: [
      ['thread-tag', /^company\/.*leaf$/],
      ['inclusion-failed', /^company\//],
    ],
  },
  {
    damage: 'a quoted leaf of the job’s own tag',
    rule: 'L41.5',
    by: ALL,
    make: (ground) =>
      quotedLeaf(ground, 'entry.refused', (leaf) => ({ ...leaf, tag: leavesOf(ground.files)[0]!.tag })),
    expect: [['thread-tag', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted leaf with a count that another one has',
    rule: 'L41.5',
    by: ALL,
    make: (ground) => quotedLeaf(ground, 'entry.refused', (leaf) => ({ ...leaf, count: leaf.count - 1 })),
    expect: [['thread-count', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted leaf that names another one before it',
    rule: 'L41.5',
    by: ALL,
    make: (ground) =>
      quotedLeaf(ground, 'owner.named', (leaf) => ({ ...leaf, previous: new Uint8Array(32) })),
    expect: [['thread-link', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted proof cut short',
    rule: 'L41.5',
    by: ALL,
    make: (ground) =>
      text(`company/${quotedOf(ground.good, 'person.added')}.tlog-proof`, (t) =>
        t.replace(/^[A-Za-z0-9+/]{43}=\n/m, ''),
      )(ground),
    expect: [['inclusion-failed', /^company\//]],
  },
  {
    damage: 'the enrolment of a phone left out',
    rule: 'L41.6',
    by: ALL,
    make: async ({ good, files }) => {
      const hash = quotedOf(good, 'device.enrolled', good.devices.second.id)
      for (const end of ['json', 'leaf', 'tlog-proof']) files.delete(`company/${hash}.${end}`)
      files.delete(`authors/${hash}.tlog-proof`)
      return remake(files, good.log)
    },
    expect: [['device-unknown', entryFile(13)]],
  },
]
