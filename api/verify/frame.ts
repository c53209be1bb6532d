import { readCheckpoint, type TreeHead } from '../domain/log/checkpoint.ts'
import { equalBytes, readUtf8, toUtf8 } from '../domain/log/encoding.ts'
import { MAX_MANIFEST_BYTES, type NoteKey, readVerifierKey } from '../domain/log/note.ts'
import {
  MANIFEST,
  type ReadManifest,
  readManifest,
  readSumLine,
  SUMS,
  writeSums,
} from '../domain/record/manifest.ts'
import type { Context } from './context.ts'

/** L40: the key that the record brings, unless one was given; then they must be equal, and the given one is used. */
export const checkKey = async (
  { archive, report, senses }: Context,
  given: NoteKey | undefined,
): Promise<NoteKey | undefined> => {
  const bytes = await archive.bytes('log.vkey')
  const text = bytes && readUtf8(bytes)
  if (!bytes) return given
  const own = text?.endsWith('\n') ? readVerifierKey(text.slice(0, -1), senses.sha256) : undefined
  if (!own?.ok) {
    report('key-malformed', 'log.vkey', 'it is not one verifier key and a newline')
    return given
  }
  if (given && (given.name !== own.value.name || !equalBytes(given.publicKey, own.value.publicKey)))
    report('key-differs', 'log.vkey', 'the record brings another key than the one that was given')
  return given ?? own.value
}

/** L38, L41.1: the manifest, read on after a fault. */
export const checkManifest = async (
  context: Context,
  key: NoteKey | undefined,
): Promise<ReadManifest | undefined> => {
  const { archive, report, notes } = context
  const bytes = await archive.bytes(MANIFEST)
  if (!bytes) {
    report('file-missing', MANIFEST, 'the record has no manifest')
    return undefined
  }
  const note = await notes.open(bytes, key, MAX_MANIFEST_BYTES)
  if (!note) {
    report('manifest-malformed', MANIFEST, 'it is no signed note')
    return undefined
  }
  if (!note.signed) report('manifest-signature', MANIFEST, 'no signature of the log’s key holds over it')
  const read = readManifest(note.text)
  if (!read.ok) {
    report(read.problem.code, MANIFEST, 'its first line is not that of a manifest that this checker knows')
    return undefined
  }
  for (const fault of read.value.faults) report('manifest-malformed', MANIFEST, fault)
  if (key && read.value.origin !== undefined && read.value.origin !== key.name)
    report('manifest-malformed', MANIFEST, 'its origin is not the name of the log’s key')
  return read.value
}

const NEEDED = [
  'log.vkey',
  'checkpoint.note',
  'thread.txt',
  'thread.tlog-proof',
  'record.json',
  'record.pdf',
  SUMS,
  'tables/entries.csv',
  'tables/loads.csv',
  'tables/slump.csv',
  'tables/water.csv',
] as const

/** L39: the shapes of all other names. Those below photos/ have a code of their own. */
const SHAPES = [
  /^entries\/\d{6}\.json$/,
  /^authors\/[0-9a-f]{64}\.tlog-proof$/,
  /^company\/[0-9a-f]{64}\.(?:json|leaf|tlog-proof)$/,
  /^earlier\/(?:0|[1-9]\d{0,15})\.(?:consistency|note)$/,
  /^tables\/[A-Za-z0-9_-]+\.csv$/,
  /^photos\//,
  /^stamps\/[1-9]\d{0,15}\.(?:tsr|tlog-proof)$/,
  /^verify\.html$/,
]
const hasPlace = (name: string): boolean =>
  NEEDED.some((needed) => needed === name) || SHAPES.some((shape) => shape.test(name))

/** L37, L41.1: exactly the files that the manifest lists, with the bytes that it lists. */
export const checkFiles = ({ archive, report }: Context, manifest: ReadManifest | undefined): void => {
  for (const name of NEEDED)
    if (!archive.has(name)) report('file-missing', name, 'the record does not hold it')
  if (!manifest) return
  const listed = new Map(manifest.files.map((file) => [file.name, file.sha256]))
  for (const [name, sha256] of listed) {
    if (!archive.has(name)) report('file-missing', name, 'the record does not hold it')
    else if (archive.hashOf(name) !== sha256)
      report('file-differs', name, 'its bytes are not those that the manifest lists')
  }
  for (const name of archive.names) {
    if (name === MANIFEST) continue
    if (!listed.has(name)) report('file-unlisted', name, 'the manifest does not list it')
    else if (!hasPlace(name)) report('file-unlisted', name, 'a record has no file of this name')
  }
}

/** L39: every file but itself and the manifest, in the manifest's order. */
export const checkSums = async (
  { archive, report }: Context,
  manifest: ReadManifest | undefined,
): Promise<void> => {
  const bytes = await archive.bytes(SUMS)
  if (!bytes || !manifest) return
  const wanted = manifest.files.filter((file) => file.name !== SUMS)
  if (equalBytes(bytes, toUtf8(writeSums(wanted)))) return
  const lines = (readUtf8(bytes) ?? '').split('\n').slice(0, -1).map(readSumLine)
  const stated = new Map(lines.flatMap((line) => (line ? [[line.name, line.sha256]] : [])))
  const differing = wanted.filter((file) => stated.get(file.name) !== file.sha256).map((file) => file.name)
  const extra = [...stated.keys()].filter((name) => !wanted.some((file) => file.name === name))
  for (const name of [...differing, ...extra])
    report('sums-differ', SUMS, `it does not agree with the manifest about ${name}`)
  if (differing.length + extra.length === 0) report('sums-differ', SUMS, 'its lines are out of form or order')
}

/** L41.2. The manifest's line stands in where the note can't be read, so that the rest is checked all the same. */
export const checkCheckpoint = async (
  { report, notes, archive }: Context,
  key: NoteKey | undefined,
  manifest: ReadManifest | undefined,
): Promise<TreeHead | undefined> => {
  const name = 'checkpoint.note'
  const bytes = await archive.bytes(name)
  if (!bytes) return manifest?.checkpoint
  const note = await notes.open(bytes, key)
  const checkpoint = note && readCheckpoint(note.text)
  if (note && !note.signed)
    report('checkpoint-signature', name, 'no signature of the log’s key holds over it')
  if (!checkpoint?.ok) {
    report('checkpoint-malformed', name, 'it is no signed note of a checkpoint')
    return manifest?.checkpoint
  }
  const { origin, size, root } = checkpoint.value
  if (key && origin !== key.name) report('checkpoint-differs', name, 'its origin is not that of the log')
  const line = manifest?.checkpoint
  if (line && (line.size !== size || !equalBytes(line.root, root)))
    report('checkpoint-differs', name, 'its size or root is not that of the manifest’s line')
  return { size, root }
}
