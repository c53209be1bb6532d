import { readCheckpoint, type TreeHead } from '../domain/log/checkpoint.ts'
import { equalBytes } from '../domain/log/encoding.ts'
import type { NoteKey } from '../domain/log/note.ts'
import { verifyInclusion } from '../domain/log/proof.ts'
import { readTlogProof } from '../domain/log/proof-file.ts'
import type { Context } from './context.ts'

/** The log as the record's checkpoint has it. */
export type LogState = { readonly key: NoteKey | undefined; readonly checkpoint: TreeHead | undefined }

/** The index of a leaf in the checkpoint's tree where its proof shows it (L33, L41.3); else undefined, and reported. */
export const checkInclusion = async (
  context: Context,
  log: LogState,
  name: string,
  leafHash: Uint8Array | undefined,
): Promise<number | undefined> => {
  const { archive, report, senses } = context
  const bytes = await archive.bytes(name)
  if (!bytes) {
    report('file-missing', name, 'the record does not hold it')
    return undefined
  }
  const proof = readTlogProof(bytes)
  if (!proof.ok) {
    report(
      proof.problem.code === 'format-unknown' ? 'format-unknown' : 'inclusion-failed',
      name,
      'it is no proof that this checker can read',
    )
    return undefined
  }
  if (!log.checkpoint || !leafHash) return undefined
  if (!(await isOfCheckpoint(context, log, proof.value.note))) {
    report('inclusion-failed', name, 'it is not under the record’s checkpoint, signed by the log')
    return undefined
  }
  const { index, path } = proof.value
  const { size, root } = log.checkpoint
  if (verifyInclusion({ index, size, leafHash, root, path }, senses.sha256)) return index
  report('inclusion-failed', name, 'its path does not lead from the leaf to the checkpoint’s root')
  return undefined
}

/** The note need not be the same bytes as checkpoint.note, but says the same and is signed by the log. */
const isOfCheckpoint = async (
  context: Context,
  { key, checkpoint }: LogState,
  bytes: Uint8Array,
): Promise<boolean> => {
  const own = await context.archive.bytes('checkpoint.note')
  // A fault of that note is reported under its own name.
  if (own && equalBytes(own, bytes)) return true
  const note = await context.notes.open(bytes, key)
  const read = note?.signed ? readCheckpoint(note.text) : undefined
  return (
    read?.ok === true &&
    read.value.origin === key?.name &&
    read.value.size === checkpoint?.size &&
    equalBytes(read.value.root, checkpoint.root)
  )
}
