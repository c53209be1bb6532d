import { deviceOrigin } from '../../../api/domain/log/device-log.ts'
import { readHex, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { inclusionProof, subtrees } from '../../../api/domain/log/proof.ts'
import { readTlogProof, writeTlogProof } from '../../../api/domain/log/proof-file.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { remake } from '../record-kit.ts'
import { ALL, author, entryFile, headed, type Row, without } from './kit.ts'

/** Who made which entry. */
export const AUTHOR_ROWS: readonly Row[] = [
  {
    damage: 'no proof of an entry’s author',
    rule: 'L41.6',
    by: ALL,
    make: without(({ good }) => author(good, 'water 1')),
    expect: [['author-missing', entryFile(6)]],
  },
  {
    damage: 'the proofs of two authors swapped',
    rule: 'L41.6',
    by: ALL,
    make: async ({ good, files }) => {
      const [a, b] = [author(good, 'water 12'), author(good, 'water 8')]
      const [x, y] = [files.get(a)!, files.get(b)!]
      return remake(files.set(a, y).set(b, x), good.log)
    },
    expect: [['author-proof', /^authors\//]],
  },
  {
    damage: 'a proof of an entry that is not here',
    rule: 'L39',
    by: ALL,
    make: async ({ good, files }) =>
      remake(
        files.set(`authors/${'0'.repeat(64)}.tlog-proof`, files.get(author(good, 'water 1'))!),
        good.log,
      ),
    expect: [['file-unlisted', /^authors\/0+\./]],
  },
  {
    damage: 'a head signed with another key',
    rule: 'L41.6',
    by: ALL,
    make: headed('water 1', (head) => head, 'a stranger'),
    expect: [['head-signature', /^authors\//]],
  },
  {
    damage: 'a head in another phone’s name',
    rule: 'L52',
    by: ALL,
    make: async (ground) =>
      headed('water 1', (head) => ({
        ...head,
        origin: deviceOrigin(ground.good.log.origin, ground.good.devices.second.id, 1),
      }))(ground),
    expect: [['head-signature', /^authors\//]],
  },
  {
    damage: 'a head that names no device',
    rule: 'L41.6',
    by: ALL,
    make: headed('water 1', (head) => ({ ...head, origin: head.origin.replace(/\/1$/, '/0') })),
    expect: [['head-malformed', /^authors\//]],
  },
  {
    damage: 'a head with a clock out of form',
    rule: 'L24',
    by: ALL,
    make: headed('water 1', (head) => ({ ...head, clock: { ...head.clock, mono: -1 } })),
    expect: [['head-malformed', /^authors\//]],
  },
  {
    damage: 'a second history that the phone’s own key signed',
    rule: 'L41.7',
    by: ALL,
    make: async (ground) => {
      const { good, files } = ground
      const own = good.log.deviceLeaves
        .filter((l) => l.device === good.devices.phone.id)
        .map((l) => readHex(l.entryHash)!)
      const index = own.findIndex((h) => toHex(h) === good.named.get('water 1'))
      const other = own.map((h, i) => (i === index + 1 ? sha256(h) : h))
      const tree = subtrees(other, sha256)
      const file = author(good, 'water 1')
      const proof = readTlogProof(files.get(file)!)
      if (!proof.ok) throw new Error('the good proof is out of form')
      files.set(
        file,
        toUtf8(
          writeTlogProof({
            index,
            path: inclusionProof(index, own.length, tree),
            note: new TextDecoder().decode(proof.value.note),
          }),
        ),
      )
      return headed('water 1', (head) => ({ ...head, root: tree(0, own.length) }))(ground)
    },
    expect: [['heads-fork', /^authors\//]],
  },
]
