import { readCheckpoint, type TreeHead } from '../domain/log/checkpoint.ts'
import { equalBytes, toHex } from '../domain/log/encoding.ts'
import { verifyConsistency } from '../domain/log/proof.ts'
import { readConsistency } from '../domain/log/proof-file.ts'
import type { CheckedProof } from './authors.ts'
import { type Context, namesOf } from './context.ts'
import type { LogState } from './inclusion.ts'

/** Earlier sizes of the log from which this record's checkpoint was shown to follow, with their roots. */
export type Earlier = ReadonlyMap<number, Uint8Array>

const nameOf = (size: number): string => `earlier/${size}.consistency`

/** L34, L41.8: the earlier checkpoints, and what the devices have seen of the log against them. */
export const checkEarlier = async (
  context: Context,
  log: LogState,
  proofs: readonly CheckedProof[],
): Promise<Earlier> => {
  const { checkpoint } = log
  const earlier = new Map<number, Uint8Array>()
  if (!checkpoint) return earlier
  for (const { name, found } of namesOf(context, /^earlier\/(\d+)\.consistency$/)) {
    const old = await checkConsistency(context, name, Number(found), checkpoint)
    if (old) earlier.set(old.size, old.root)
  }
  for (const { name, found } of namesOf(context, /^earlier\/(\d+)\.note$/)) {
    if (Number(found) === 0 || Number(found) === checkpoint.size)
      context.report(
        'file-unlisted',
        name,
        'no record holds an empty log’s checkpoint, or its own a second time',
      )
    else await checkNote(context, log, name, Number(found), earlier)
  }
  const heads = new Map<string, CheckedProof>()
  for (const proof of proofs) {
    const head = `${proof.head.origin} ${proof.head.size} ${toHex(proof.head.root)} ${proof.head.seen.size} ${toHex(proof.head.seen.root)}`
    if (proof.holds && !heads.has(head)) heads.set(head, proof)
  }
  for (const proof of heads.values()) checkSeen(context, proof, checkpoint, earlier)
  return earlier
}

const checkConsistency = async (
  { archive, report, senses }: Context,
  name: string,
  size: number,
  checkpoint: TreeHead,
): Promise<TreeHead | undefined> => {
  if (size === 0 || size === checkpoint.size) {
    report(
      'file-unlisted',
      name,
      'nothing is to be shown from an empty log, or from the checkpoint to itself',
    )
    return undefined
  }
  const read = readConsistency((await archive.bytes(name))!)
  if (!read.ok) {
    report(
      read.problem.code === 'format-unknown' ? 'format-unknown' : 'consistency-failed',
      name,
      'it is no proof that this checker can read',
    )
    return undefined
  }
  const { old, new: newer, path } = read.value
  const claim = { oldSize: old.size, oldRoot: old.root, newSize: newer.size, newRoot: newer.root, path }
  if (old.size !== size || newer.size !== checkpoint.size || !equalBytes(newer.root, checkpoint.root)) {
    report(
      'consistency-failed',
      name,
      'it does not lead from the size in its name to the record’s checkpoint',
    )
    return undefined
  }
  if (verifyConsistency(claim, senses.sha256)) return old
  report('consistency-failed', name, 'its hashes do not lead from the old root to the new one')
  return undefined
}

const checkNote = async (
  { archive, report, notes }: Context,
  { key }: LogState,
  name: string,
  size: number,
  earlier: Earlier,
): Promise<void> => {
  const note = await notes.open((await archive.bytes(name))!, key)
  const read = note && readCheckpoint(note.text)
  if (!note?.signed) report('earlier-signature', name, 'no signature of the log’s key holds over it')
  if (!archive.has(nameOf(size)))
    report('consistency-missing', nameOf(size), 'a checkpoint of that size is here without it')
  const root = earlier.get(size)
  const fits =
    read?.ok === true &&
    read.value.size === size &&
    (!key || read.value.origin === key.name) &&
    (!root || equalBytes(root, read.value.root))
  if (note && !fits)
    report('earlier-differs', name, 'it is not the checkpoint from which the consistency file leads')
}

/** What a device's signed head says it had verified of the log is a part of this log. */
const checkSeen = (
  { archive, report }: Context,
  proof: CheckedProof,
  checkpoint: TreeHead,
  earlier: Earlier,
): void => {
  const { seen, origin } = proof.head
  if (seen.size === 0) return
  if (seen.size > checkpoint.size) {
    report(
      'seen-ahead',
      proof.name,
      `its head has seen the log at size ${seen.size}, beyond the record’s checkpoint`,
    )
    return
  }
  const root = seen.size === checkpoint.size ? checkpoint.root : earlier.get(seen.size)
  const name = nameOf(seen.size)
  if (seen.size < checkpoint.size && !archive.has(name)) {
    report('consistency-missing', name, `a head of ${origin} has seen the log at that size`)
    return
  }
  if (seen.size < checkpoint.size && !archive.has(`earlier/${seen.size}.note`))
    report('file-missing', `earlier/${seen.size}.note`, 'the record does not hold it')
  if (root && !equalBytes(root, seen.root))
    report(
      'consistency-failed',
      seen.size === checkpoint.size ? proof.name : name,
      `${origin} has seen another log at size ${seen.size}`,
    )
}
