import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { readNote, signNote } from '../../../api/domain/log/note.ts'
import { readTlogProof, writeTlogProof } from '../../../api/domain/log/proof-file.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { remake } from '../record-kit.ts'
import { keyOf } from '../scripted-log.ts'
import { ALL, entryFile, type Row, text, thread } from './kit.ts'

/** The job’s thread. */
export const THREAD_ROWS: readonly Row[] = [
  {
    damage: 'half a leaf',
    rule: 'L13',
    by: ALL,
    make: text('thread.txt', (t) => t.replace(/^(.{100}).*$/m, '$1')),
    expect: [['leaf-malformed', 'thread.txt']],
  },
  {
    damage: 'a leaf of another format',
    rule: 'L14',
    by: ALL,
    make: text('thread.txt', (t) => t.replace(/\n01/, '\n02')),
    expect: [['leaf-format-unknown', 'thread.txt']],
  },
  {
    damage: 'a count left out',
    rule: 'L15',
    by: ALL,
    make: thread((leaves) => leaves.map((l, i) => (i > 4 ? { ...l, count: l.count + 1 } : l))),
    expect: [
      ['thread-count', 'thread.txt'],
      ['inclusion-failed', 'thread.tlog-proof'],
    ],
  },
  {
    damage: 'a leaf that names another one before it',
    rule: 'L15',
    by: ALL,
    make: text('thread.txt', (t) => t.replace(/(\n.{66}).{8}/, '$100000000')),
    expect: [['thread-link', 'thread.txt']],
  },
  {
    damage: 'a leaf of another thread',
    rule: 'L15',
    by: ALL,
    make: thread((leaves) => leaves.map((l, i) => (i === 3 ? { ...l, tag: new Uint8Array(16) } : l))),
    expect: [['thread-tag', 'thread.txt']],
  },
  {
    damage: 'one entry twice',
    rule: 'L15',
    by: ALL,
    make: thread((leaves) => leaves.map((l, i) => (i === 5 ? { ...l, entryHash: leaves[4]!.entryHash } : l))),
    expect: [['leaf-repeated', 'thread.txt']],
  },
  {
    damage: 'a time of receipt changed',
    rule: 'L13',
    by: ALL,
    make: thread((leaves) =>
      leaves.map((l, i) => (i === 14 ? { ...l, receivedAt: l.receivedAt - 3_600_000 } : l)),
    ),
    expect: [
      ['inclusion-failed', 'thread.tlog-proof'],
      ['figures-differ', 'record.json'],
    ],
  },
  {
    damage: 'the last entry cut off, the thread still whole',
    rule: 'L43',
    by: ALL,
    make: thread((leaves) => leaves.slice(0, -1)),
    expect: [
      ['inclusion-failed', 'thread.tlog-proof'],
      ['file-unlisted', entryFile(23)],
    ],
  },
  {
    damage: 'a proof of a later version',
    rule: 'L44',
    by: ALL,
    make: text('thread.tlog-proof', (t) => t.replace('tlog-proof@v1', 'tlog-proof@v2')),
    expect: [['format-unknown', 'thread.tlog-proof']],
  },

  {
    damage: 'a proof under the right checkpoint, but signed by nobody known',
    rule: 'L41.3',
    by: ALL,
    make: async ({ good, files }) => {
      const proof = readTlogProof(files.get('thread.tlog-proof')!)
      const note = proof.ok ? readNote(proof.value.note) : proof
      if (!proof.ok || !note.ok) throw new Error('the good proof is out of form')
      const stranger = keyOf('a stranger')
      const signed = await signNote(
        note.value.text,
        { name: good.log.origin, publicKey: stranger.publicKey },
        stranger.sign,
        sha256,
      )
      return remake(
        files.set('thread.tlog-proof', toUtf8(writeTlogProof({ ...proof.value, note: signed }))),
        good.log,
      )
    },
    expect: [['inclusion-failed', 'thread.tlog-proof']],
  },
]
