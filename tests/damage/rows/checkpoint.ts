import { writeCheckpoint } from '../../../api/domain/log/checkpoint.ts'
import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { signNote } from '../../../api/domain/log/note.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { remake } from '../record-kit.ts'
import { keyOf } from '../scripted-log.ts'
import { ALL, type Row, text } from './kit.ts'

/** The checkpoint. */
export const CHECKPOINT_ROWS: readonly Row[] = [
  {
    damage: 'the checkpoint of another log',
    rule: 'L41.2',
    by: ALL,
    make: async ({ good, files }) => {
      const other = keyOf('another log')
      const origin = good.log.origin.replace(/.$/, (digit) => (digit === '0' ? '1' : '0'))
      const head = { origin, size: 5, root: new Uint8Array(32).fill(7) }
      files.set(
        'checkpoint.note',
        toUtf8(
          await signNote(
            writeCheckpoint(head),
            { name: origin, publicKey: other.publicKey },
            other.sign,
            sha256,
          ),
        ),
      )
      return remake(files, good.log)
    },
    expect: [
      ['checkpoint-signature', 'checkpoint.note'],
      ['checkpoint-differs', 'checkpoint.note'],
      ['inclusion-failed', 'thread.tlog-proof'],
    ],
  },
  {
    damage: 'an earlier checkpoint of the same log',
    rule: 'L41.2',
    by: ALL,
    make: async ({ good, files }) =>
      remake(files.set('checkpoint.note', toUtf8(good.log.checkpoints.at(-2)!.note)), good.log),
    expect: [
      ['checkpoint-differs', 'checkpoint.note'],
      ['inclusion-failed', 'thread.tlog-proof'],
    ],
  },
  {
    damage: 'a checkpoint without a root',
    rule: 'L41.2',
    by: ALL,
    make: text('checkpoint.note', (note) => note.replace(/^[A-Za-z0-9+/]{43}=$/m, 'x')),
    expect: [['checkpoint-malformed', 'checkpoint.note']],
  },
]
