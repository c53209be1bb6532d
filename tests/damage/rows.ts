import { hashEntry } from '../../api/domain/entry/read.ts'
import { writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { deviceOrigin, readHead, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex, toBase64, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { type Leaf, readLeaf, writeLeaf } from '../../api/domain/log/leaf.ts'
import { readNote, signNote } from '../../api/domain/log/note.ts'
import { inclusionProof, subtrees } from '../../api/domain/log/proof.ts'
import { readTlogProof, writeTlogProof } from '../../api/domain/log/proof-file.ts'
import { sha256 } from '../../api/server/senses.ts'
import type { FindingCode } from '../../api/verify/findings.ts'
import { leavesOf, relink, withoutEntry } from './forge.ts'
import type { GoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import {
  type Files,
  manifestText,
  pack,
  packMembers,
  remake,
  setText,
  signManifest,
  textOf,
  unpack,
} from './record-kit.ts'
import { keyOf } from './scripted-log.ts'

/** What one damage is given: the good log, and its record taken apart afresh. */
export type Ground = { readonly good: GoodLog; readonly files: Files }
export type Row = {
  /** What was done to the record. */
  readonly damage: string
  readonly rule: string
  readonly make: (ground: Ground) => Promise<Uint8Array>
  /** Code and file; these must be among the findings. A file may be a pattern. */
  readonly expect: readonly (readonly [FindingCode, string | RegExp])[]
}

const entryFile = (count: number): string => `entries/${String(count).padStart(6, '0')}.json`
const author = (good: GoodLog, name: string): string => `authors/${good.named.get(name)}.tlog-proof`
const countOf = (good: GoodLog, name: string): number =>
  good.log.leaves.find((l) => l.entryHash === good.named.get(name))!.count
const quotedOf = (good: GoodLog, kind: string, device?: string): string =>
  good.log.leaves.find(
    (l) =>
      l.kind === kind &&
      (device === undefined || JSON.parse(new TextDecoder().decode(l.bytes)).body.device === device),
  )!.entryHash
const photoName = (files: Files): string => [...files.keys()].find((name) => name.startsWith('photos/'))!
const flip = (bytes: Uint8Array, at = Math.floor(bytes.length / 2)): Uint8Array => {
  const copy = bytes.slice()
  copy[at] = copy[at]! ^ 1
  return copy
}
const rename = (files: Files, from: string, to: string): void => {
  files.set(to, files.get(from)!)
  files.delete(from)
}

/** A damage to one file's text, the manifest remade and signed by whoever holds the log's key. */
const text =
  (name: string | ((ground: Ground) => string), change: (text: string) => string) =>
  async (ground: Ground): Promise<Uint8Array> => {
    setText(ground.files, typeof name === 'string' ? name : name(ground), change)
    return remake(ground.files, ground.good.log)
  }
const without =
  (name: string | ((ground: Ground) => string)) =>
  async (ground: Ground): Promise<Uint8Array> => {
    if (!ground.files.delete(typeof name === 'string' ? name : name(ground)))
      throw new Error('there is nothing to leave out')
    return remake(ground.files, ground.good.log)
  }
/** Leaves of the thread changed and linked anew, the manifest remade. */
const thread =
  (change: (leaves: ReturnType<typeof leavesOf>) => ReturnType<typeof leavesOf>) =>
  async ({ good, files }: Ground): Promise<Uint8Array> => {
    relink(files, change(leavesOf(files)))
    return remake(files, good.log)
  }

/** The author's proof of an entry under a head that its device, or somebody else, signs as told. */
const headed =
  (
    name: string,
    change: (head: Parameters<typeof writeHead>[0]) => Parameters<typeof writeHead>[0],
    signer?: string,
  ) =>
  async ({ good, files }: Ground): Promise<Uint8Array> => {
    const file = author(good, name)
    const proof = readTlogProof(files.get(file)!)
    const note = proof.ok ? readNote(proof.value.note) : proof
    const head = note.ok ? readHead(note.value.text) : note
    if (!proof.ok || !head.ok) throw new Error('the good proof is out of form')
    const changed = change(head.value)
    const key = signer === undefined ? good.devices.phone.key : keyOf(signer)
    const signed = await signNote(
      writeHead(changed),
      { name: changed.origin, publicKey: key.publicKey },
      key.sign,
      sha256,
    )
    files.set(file, toUtf8(writeTlogProof({ ...proof.value, note: signed })))
    return remake(files, good.log)
  }

/** One quoted leaf changed, the manifest remade. */
const quotedLeaf = async (
  { good, files }: Ground,
  kind: string,
  change: (leaf: Leaf) => Leaf,
): Promise<Uint8Array> => {
  const name = `company/${quotedOf(good, kind)}.leaf`
  const leaf = readLeaf(readHex(textOf(files, name).trim())!)
  if (!leaf.ok) throw new Error('the good leaf is out of form')
  setText(files, name, () => `${toHex(writeLeaf(change(leaf.value)))}\n`)
  return remake(files, good.log)
}

export const ROWS: readonly Row[] = [
  // The ZIP and its frame
  {
    damage: 'a byte after the end',
    rule: 'L37',
    make: async ({ files }) => new Uint8Array([...(await pack(files)), 0]),
    expect: [['zip-malformed', '-']],
  },
  {
    damage: 'bytes before the first member',
    rule: 'L37',
    make: async ({ files }) => new Uint8Array([...toUtf8('hello'), ...(await pack(files))]),
    expect: [['zip-malformed', /./]],
  },
  {
    damage: 'cut off after two thirds',
    rule: 'L37',
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
    make: async () => new Uint8Array(),
    expect: [['zip-malformed', '-']],
  },
  {
    damage: 'a CRC that is not that of the bytes, in both places',
    rule: 'L37',
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
    make: async ({ files }) => pack(files.set('entries/000099.json', toUtf8('{}'))),
    expect: [['file-unlisted', 'entries/000099.json']],
  },
  {
    damage: 'a listed file of a name that no record has',
    rule: 'L39',
    make: async ({ good, files }) =>
      remake(files.set('READ-ME-FIRST.html', toUtf8('<b>all is well</b>')), good.log),
    expect: [['file-unlisted', 'READ-ME-FIRST.html']],
  },
  {
    damage: 'a manifest signed by nobody known',
    rule: 'L38',
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
    make: async ({ files }) => pack(files.set('manifest.note', toUtf8(manifestText(files)))),
    expect: [['manifest-malformed', 'manifest.note']],
  },
  {
    damage: 'a manifest out of order',
    rule: 'L38',
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
  { damage: 'no log.vkey', rule: 'L39', make: without('log.vkey'), expect: [['file-missing', 'log.vkey']] },
  { damage: 'no page', rule: 'L39', make: without('record.pdf'), expect: [['file-missing', 'record.pdf']] },
  {
    damage: 'no table of water',
    rule: 'L39',
    make: without('tables/water.csv'),
    expect: [['file-missing', 'tables/water.csv']],
  },
  {
    damage: 'a key out of form',
    rule: 'L40',
    make: text('log.vkey', (key) => key.replace('+', '-')),
    expect: [['key-malformed', 'log.vkey']],
  },

  // The checkpoint
  {
    damage: 'the checkpoint of another log',
    rule: 'L41.2',
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
    make: text('checkpoint.note', (note) => note.replace(/^[A-Za-z0-9+/]{43}=$/m, 'x')),
    expect: [['checkpoint-malformed', 'checkpoint.note']],
  },

  // The thread
  {
    damage: 'half a leaf',
    rule: 'L13',
    make: text('thread.txt', (t) => t.replace(/^(.{100}).*$/m, '$1')),
    expect: [['leaf-malformed', 'thread.txt']],
  },
  {
    damage: 'a leaf of another format',
    rule: 'L14',
    make: text('thread.txt', (t) => t.replace(/\n01/, '\n02')),
    expect: [['leaf-format-unknown', 'thread.txt']],
  },
  {
    damage: 'a count left out',
    rule: 'L15',
    make: thread((leaves) => leaves.map((l, i) => (i > 4 ? { ...l, count: l.count + 1 } : l))),
    expect: [
      ['thread-count', 'thread.txt'],
      ['inclusion-failed', 'thread.tlog-proof'],
    ],
  },
  {
    damage: 'a leaf that names another one before it',
    rule: 'L15',
    make: text('thread.txt', (t) => t.replace(/(\n.{66}).{8}/, '$100000000')),
    expect: [['thread-link', 'thread.txt']],
  },
  {
    damage: 'a leaf of another thread',
    rule: 'L15',
    make: thread((leaves) => leaves.map((l, i) => (i === 3 ? { ...l, tag: new Uint8Array(16) } : l))),
    expect: [['thread-tag', 'thread.txt']],
  },
  {
    damage: 'one entry twice',
    rule: 'L15',
    make: thread((leaves) => leaves.map((l, i) => (i === 5 ? { ...l, entryHash: leaves[4]!.entryHash } : l))),
    expect: [['leaf-repeated', 'thread.txt']],
  },
  {
    damage: 'a time of receipt changed',
    rule: 'L13',
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
    make: thread((leaves) => leaves.slice(0, -1)),
    expect: [
      ['inclusion-failed', 'thread.tlog-proof'],
      ['file-unlisted', entryFile(23)],
    ],
  },
  {
    damage: 'a proof of a later version',
    rule: 'L44',
    make: text('thread.tlog-proof', (t) => t.replace('tlog-proof@v1', 'tlog-proof@v2')),
    expect: [['format-unknown', 'thread.tlog-proof']],
  },

  {
    damage: 'a proof under the right checkpoint, but signed by nobody known',
    rule: 'L41.3',
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

  // Entries
  {
    damage: 'one entry changed, and the manifest made good',
    rule: 'L41.4',
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
    make: async ({ good }) =>
      recordBytes({ ...good, log: await withoutEntry(good.log, good.named.get('water 8')!) }),
    expect: [['consistency-failed', /./]],
  },
  {
    damage: 'an entry with a blank more',
    rule: 'L4',
    make: text(entryFile(6), (t) => t.replace('{', '{ ')),
    expect: [
      ['entry-malformed', entryFile(6)],
      ['entry-differs', entryFile(6)],
    ],
  },
  {
    damage: 'an entry of a later release in the place of a known one',
    rule: 'L44',
    make: text(entryFile(6), (t) => t.replace('"v":1', '"v":2')),
    expect: [['entry-differs', entryFile(6)]],
  },
  {
    damage: 'an entry of another job',
    rule: 'L16',
    make: text(entryFile(6), (t) => t.replace(/"job":"./, '"job":"f')),
    expect: [
      ['entry-thread', entryFile(6)],
      ['entry-differs', entryFile(6)],
    ],
  },
  {
    damage: 'the manifest of another job',
    rule: 'L16',
    make: async ({ good, files }) => remake(files, good.log, { job: good.log.company }),
    expect: [['entry-thread', entryFile(1)]],
  },

  // The company's own affairs
  {
    damage: 'the founding left out',
    rule: 'L28',
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
    make: without(({ good }) => `company/${quotedOf(good, 'person.added')}.leaf`),
    expect: [['file-missing', /^company\/.*leaf$/]],
  },
  {
    damage: 'the leaves of two quoted entries swapped',
    rule: 'L41.5',
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
    make: (ground) => quotedLeaf(ground, 'person.added', (leaf) => ({ ...leaf, tag: new Uint8Array(16) })),
    expect: [
      ['thread-tag', /^company\/.*leaf$/],
      ['inclusion-failed', /^company\//],
    ],
  },
  {
    damage: 'a quoted leaf of the job’s own tag',
    rule: 'L41.5',
    make: (ground) =>
      quotedLeaf(ground, 'entry.refused', (leaf) => ({ ...leaf, tag: leavesOf(ground.files)[0]!.tag })),
    expect: [['thread-tag', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted leaf with a count that another one has',
    rule: 'L41.5',
    make: (ground) => quotedLeaf(ground, 'entry.refused', (leaf) => ({ ...leaf, count: leaf.count - 1 })),
    expect: [['thread-count', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted leaf that names another one before it',
    rule: 'L41.5',
    make: (ground) =>
      quotedLeaf(ground, 'owner.named', (leaf) => ({ ...leaf, previous: new Uint8Array(32) })),
    expect: [['thread-link', /^company\/.*leaf$/]],
  },
  {
    damage: 'a quoted proof cut short',
    rule: 'L41.5',
    make: (ground) =>
      text(`company/${quotedOf(ground.good, 'person.added')}.tlog-proof`, (t) =>
        t.replace(/^[A-Za-z0-9+/]{43}=\n/m, ''),
      )(ground),
    expect: [['inclusion-failed', /^company\//]],
  },
  {
    damage: 'the enrolment of a phone left out',
    rule: 'L41.6',
    make: async ({ good, files }) => {
      const hash = quotedOf(good, 'device.enrolled', good.devices.second.id)
      for (const end of ['json', 'leaf', 'tlog-proof']) files.delete(`company/${hash}.${end}`)
      files.delete(`authors/${hash}.tlog-proof`)
      return remake(files, good.log)
    },
    expect: [['device-unknown', entryFile(13)]],
  },

  // Authors
  {
    damage: 'no proof of an entry’s author',
    rule: 'L41.6',
    make: without(({ good }) => author(good, 'water 1')),
    expect: [['author-missing', entryFile(6)]],
  },
  {
    damage: 'the proofs of two authors swapped',
    rule: 'L41.6',
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
    make: headed('water 1', (head) => head, 'a stranger'),
    expect: [['head-signature', /^authors\//]],
  },
  {
    damage: 'a head in another phone’s name',
    rule: 'L52',
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
    make: headed('water 1', (head) => ({ ...head, origin: head.origin.replace(/\/1$/, '/0') })),
    expect: [['head-malformed', /^authors\//]],
  },
  {
    damage: 'a head with a clock out of form',
    rule: 'L24',
    make: headed('water 1', (head) => ({ ...head, clock: { ...head.clock, mono: -1 } })),
    expect: [['head-malformed', /^authors\//]],
  },
  {
    damage: 'a second history that the phone’s own key signed',
    rule: 'L41.7',
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

  // What the devices have seen of the log
  {
    damage: 'a head that has seen more than there is',
    rule: 'L41.8',
    make: headed('water 1', (head) => ({ ...head, seen: { size: 999, root: new Uint8Array(32) } })),
    expect: [['seen-ahead', /^authors\//]],
  },
  {
    damage: 'a head that has seen another log',
    rule: 'L41.8',
    make: headed('water 1', (head) => ({ ...head, seen: { ...head.seen, root: new Uint8Array(32) } })),
    expect: [['consistency-failed', /^earlier\//]],
  },
  {
    damage: 'no way from an earlier checkpoint',
    rule: 'L41.8',
    make: without('earlier/10.consistency'),
    expect: [['consistency-missing', 'earlier/10.consistency']],
  },
  {
    damage: 'a hash of that way changed',
    rule: 'L41.8',
    make: text('earlier/10.consistency', (t) =>
      t.replace(/[A-Za-z0-9+/]{43}=\n$/, `${toBase64(new Uint8Array(32))}\n`),
    ),
    expect: [['consistency-failed', 'earlier/10.consistency']],
  },
  {
    damage: 'a way of a later version',
    rule: 'L44',
    make: text('earlier/10.consistency', (t) => t.replace('/v1', '/v3')),
    expect: [['format-unknown', 'earlier/10.consistency']],
  },
  {
    damage: 'an earlier checkpoint that the log did not sign',
    rule: 'L41.8',
    make: text('earlier/10.note', (t) => t.replace(/\n10\n/, '\n11\n')),
    expect: [['earlier-signature', 'earlier/10.note']],
  },
  {
    damage: 'another earlier checkpoint under its name',
    rule: 'L41.8',
    make: async ({ good, files }) =>
      remake(files.set('earlier/10.note', toUtf8(good.log.checkpoints[0]!.note)), good.log),
    expect: [['earlier-differs', 'earlier/10.note']],
  },

  // Photos
  {
    damage: 'a photo swapped under its name',
    rule: 'L41.9',
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
    make: without(({ files }) => photoName(files)),
    expect: [
      ['photo-missing', entryFile(5)],
      ['figures-differ', 'record.json'],
    ],
  },

  // Figures
  {
    damage: 'a figure changed in the model',
    rule: 'L41.11',
    make: text('record.json', (t) => t.replace('"minutes":[84]', '"minutes":[48]')),
    expect: [['figures-differ', 'record.json']],
  },
  {
    damage: 'a model in no language',
    rule: 'L41.11',
    make: text('record.json', (t) => t.replace('"language":"en"', '"language":"xx"')),
    expect: [['figures-differ', 'record.json']],
  },
  {
    damage: 'a figure changed in a table',
    rule: 'L41.11',
    make: text('tables/loads.csv', (t) => t.replace('118 | 119', '88 | 89')),
    expect: [['table-differs', 'tables/loads.csv']],
  },
  {
    damage: 'a page that is no PDF',
    rule: 'L41.11',
    make: async ({ good, files }) => remake(files.set('record.pdf', toUtf8('%PDF-1.7 nothing')), good.log),
    expect: [['pdf-differs', 'record.pdf']],
  },
  {
    damage: 'another time on the frame than that of the last leaf, which the record holds',
    rule: 'L38',
    make: async ({ good }) => {
      const size = good.log.leaves.findLast((l) => l.job === good.job)!.position + 1
      const files = await unpack(await recordBytes(good, { checkpointSize: size }))
      return remake(files, good.log, { made: Date.UTC(2026, 3, 22) })
    },
    expect: [['manifest-malformed', 'manifest.note']],
  },
  {
    damage: 'another day on the frame',
    rule: 'L38',
    make: async ({ good, files }) => remake(files, good.log, { made: Date.UTC(2026, 3, 22) }),
    expect: [['figures-differ', 'record.json']],
  },
]
