import { toBase64, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { remake } from '../record-kit.ts'
import { ALL, headed, type Row, text, without } from './kit.ts'

/** What the devices have seen of the log. */
export const SEEN_ROWS: readonly Row[] = [
  {
    damage: 'a head that has seen more than there is',
    rule: 'L41.8',
    by: ALL,
    make: headed('water 1', (head) => ({ ...head, seen: { size: 999, root: new Uint8Array(32) } })),
    expect: [['seen-ahead', /^authors\//]],
  },
  {
    damage: 'a head that has seen another log',
    rule: 'L41.8',
    by: ALL,
    make: headed('water 1', (head) => ({ ...head, seen: { ...head.seen, root: new Uint8Array(32) } })),
    expect: [['consistency-failed', /^earlier\//]],
  },
  {
    damage: 'no way from an earlier checkpoint',
    rule: 'L41.8',
    by: ALL,
    make: without('earlier/10.consistency'),
    expect: [['consistency-missing', 'earlier/10.consistency']],
  },
  {
    damage: 'a hash of that way changed',
    rule: 'L41.8',
    by: ALL,
    make: text('earlier/10.consistency', (t) =>
      t.replace(/[A-Za-z0-9+/]{43}=\n$/, `${toBase64(new Uint8Array(32))}\n`),
    ),
    expect: [['consistency-failed', 'earlier/10.consistency']],
  },
  {
    damage: 'a way of a later version',
    rule: 'L44',
    by: ALL,
    make: text('earlier/10.consistency', (t) => t.replace('/v1', '/v3')),
    expect: [['format-unknown', 'earlier/10.consistency']],
  },
  {
    damage: 'an earlier checkpoint that the log did not sign',
    rule: 'L41.8',
    by: ALL,
    make: text('earlier/10.note', (t) => t.replace(/\n10\n/, '\n11\n')),
    expect: [['earlier-signature', 'earlier/10.note']],
  },
  {
    damage: 'another earlier checkpoint under its name',
    rule: 'L41.8',
    by: ALL,
    make: async ({ good, files }) =>
      remake(files.set('earlier/10.note', toUtf8(good.log.checkpoints[0]!.note)), good.log),
    expect: [['earlier-differs', 'earlier/10.note']],
  },
]
