import { canonicalJson } from '../../../../api/domain/log/bytes.ts'
import { readCheckpoint } from '../../../../api/domain/log/checkpoint.ts'
import { readHex, toHex, toUtf8 } from '../../../../api/domain/log/encoding.ts'
import { hashLeaf } from '../../../../api/domain/log/leaf.ts'
import { keyId, readNote } from '../../../../api/domain/log/note.ts'
import { inclusionProof, subtrees } from '../../../../api/domain/log/proof.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../../../api/domain/log/tree.ts'
import { readExifTime } from '../../../../api/server/photo/exif/exif-time.ts'
import { sha256 } from '../../../../api/server/senses.ts'
import { type Binding, given, NotOfThisShape, type Reader } from '../bind.ts'

const bytes = (hex: unknown): Uint8Array => {
  const read = typeof hex === 'string' ? readHex(hex) : undefined
  if (!read) throw new NotOfThisShape()
  return read
}
const leaves = (a: Reader): Uint8Array[] => {
  const all = a.raw('leaf_hex')
  if (!Array.isArray(all)) throw new NotOfThisShape()
  return all.map((hex) => hashLeaf(bytes(hex), sha256))
}
const parsed = (a: Reader): unknown => {
  try {
    return JSON.parse(a.text('json') ?? '')
  } catch {
    throw new NotOfThisShape()
  }
}

/** The log’s own formats have published cases too; they are the same functions that phones and server run. */
export const LOG: readonly Binding[] = [
  {
    function: 'log/tree.rootOf',
    needs: ['leaf_hex'],
    when: (a) => Array.isArray(a.raw('leaf_hex')),
    gives: (a) => ({ root_hex: toHex(rootOf(appendAll(EMPTY_FRONTIER, leaves(a), sha256), sha256)) }),
  },
  {
    function: 'log/leaf.hashLeaf',
    needs: ['leaf_hex'],
    when: (a) => typeof a.raw('leaf_hex') === 'string',
    gives: (a) => ({ leaf_hash_hex: toHex(hashLeaf(bytes(a.raw('leaf_hex')), sha256)) }),
  },
  {
    function: 'log/proof.inclusionProof',
    needs: ['leaf_index', 'tree_size', 'leaf_hex'],
    gives: (a) => {
      const [index, size] = [a.number('leaf_index'), a.number('tree_size')]
      if (index === undefined || size === undefined) throw new NotOfThisShape()
      return { audit_path_hex: inclusionProof(index, size, subtrees(leaves(a), sha256)).map(toHex) }
    },
  },
  {
    function: 'log/bytes.canonicalJson',
    needs: ['json'],
    gives: (a) => {
      const value = parsed(a)
      const canonical = canonicalJson(value)
      return {
        canonical,
        sha256_hex: toHex(sha256(toUtf8(canonical))),
        // Integer-like names come first in a JavaScript object, so the order is read off the text itself.
        ...(isFlat(value)
          ? { sorted_values: [...canonical.matchAll(/:("(?:[^"\\]|\\.)*")/g)].map((m) => JSON.parse(m[1]!)) }
          : {}),
      }
    },
  },
  {
    function: 'log/note.readNote, log/checkpoint.readCheckpoint',
    needs: ['note'],
    gives: (a) => {
      const note = readNote(toUtf8(a.text('note') ?? ''))
      if (!note.ok) return { refused: note.problem }
      const [signature] = note.value.signatures
      return given(readCheckpoint(note.value.text), (c) => ({
        origin: c.origin,
        tree_size: c.size,
        root_hash_hex: toHex(c.root),
        sig_key_name: signature?.name,
        key_id_hex: signature && toHex(signature.keyId),
        sig_len_bytes: signature?.signature.length,
      }))
    },
  },
  {
    function: 'log/note.keyId',
    needs: ['name', 'public_key_hex'],
    gives: (a) => ({
      key_id_hex: toHex(
        keyId({ name: a.text('name') ?? '', publicKey: bytes(a.raw('public_key_hex')) }, sha256),
      ),
    }),
  },
  {
    function: 'photo/exif/exif-time.readExifTime',
    needs: ['DateTimeOriginal'],
    may: ['OffsetTimeOriginal', 'SubSecTimeOriginal'],
    gives: (a) => {
      const time = readExifTime({
        dateTimeOriginal: a.raw('DateTimeOriginal'),
        offsetTimeOriginal: a.raw('OffsetTimeOriginal') ?? undefined,
        subSecTimeOriginal: a.raw('SubSecTimeOriginal') ?? undefined,
      })
      return { utc: time.utc.is === 'given' ? time.utc.value : undefined }
    },
  },
]

const isFlat = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && Object.values(value).every((one) => typeof one === 'string')
