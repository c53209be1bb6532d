import { toHex, toUtf8 } from '../../domain/log/encoding.ts'
import { type NoteKey, signNote, writeVerifierKey } from '../../domain/log/note.ts'
import { fingerprintOf } from '../../domain/record/fingerprint.ts'
import { headsUsed } from '../../domain/record/heads.ts'
import { byName, CHECK_PAGE, MANIFEST, SUMS, writeManifest, writeSums } from '../../domain/record/manifest.ts'
import { type RecordModel, recordModel } from '../../domain/record/model.ts'
import { picturesOf } from '../../domain/record/page/blocks.ts'
import { pageOf } from '../../domain/record/page/page.ts'
import { photoFiles } from '../../domain/record/photo-files.ts'
import { WHOLE_JOB } from '../../domain/record/request.ts'
import { ok, type Result } from '../../domain/result.ts'
import type { Language } from '../../domain/words/words.ts'
import type { Sign } from '../../domain/world.ts'
import { sha256 } from '../senses.ts'
import { checkPage } from './check-page.ts'
import { type Collected, type CollectProblem, type CollectRequest, collect } from './collect.ts'
import { type HeldPhoto, heldPhotos, type OpenPhoto } from './held-photos.ts'
import { figureFiles, logFiles, type SmallFile } from './record-files.ts'
import { drawPrints } from './typeset/draw-prints.ts'
import { type TypesetProblem, typeset } from './typeset/typeset.ts'
import { writeZip } from './write-zip.ts'

export type MakeRecordRequest = CollectRequest & {
  readonly photos: OpenPhoto
  readonly language: Language
  readonly release: string
  /** The log's key: its public part, and its signature over the manifest. */
  readonly log: { readonly noteKey: NoteKey; readonly sign: Sign }
}

export type MakeRecordProblem = CollectProblem | TypesetProblem | 'check-page-unbuilt'

/**
 * The record of a job as a ZIP (SPEC §10). Release, checkpoint and request decide every byte.
 * Fails: `not-found`, `checkpoint-unknown` `check-page-unbuilt` and what typesetting can fail with; the stream itself errs where a photo
 * went away under way.
 */
export const makeRecord = async (
  request: MakeRecordRequest,
): Promise<Result<ReadableStream<Uint8Array>, MakeRecordProblem>> => {
  const collected = await collect(request)
  if (!collected.ok) return collected
  const photos = await heldPhotos(photoFiles(collected.value.thread.map((leaf) => leaf.read)), request.photos)
  const logKey = writeVerifierKey(request.log.noteKey, sha256)
  const checker = await checkPage()
  if (!checker.ok) return checker
  const checkerHash = toHex(sha256(checker.value))
  const model = modelOf(collected.value, photos, { logKey, checkerHash }, request)
  const page = pageOf(model)
  const prints = await drawPrints(picturesOf(page.blocks), request.photos)
  const pdf = await typeset(page, { language: request.language, createdAt: collected.value.made, prints })
  if (!pdf.ok) return pdf
  const small = [
    ...logFiles(collected.value, logKey),
    ...figureFiles(model),
    { name: 'record.pdf', bytes: pdf.value },
    { name: CHECK_PAGE, bytes: checker.value },
  ]
  return ok(await signedZip(collected.value, small, photos, request))
}

const modelOf = (
  collected: Collected,
  photos: readonly HeldPhoto[],
  { logKey, checkerHash }: { readonly logKey: string; readonly checkerHash: string },
  { job, language, release, scope }: MakeRecordRequest,
): RecordModel => {
  const { thread, company, authors, checkpoint, made, origin } = collected
  const receivedAt = new Map([...thread, ...company].map((leaf) => [leaf.entryHash, leaf.receivedAt]))
  return recordModel({
    language,
    release,
    origin,
    logKey,
    checkerHash,
    fingerprint: fingerprintOf(
      { origin, checkpoint, count: thread.length, lastLeaf: thread.at(-1)!.leafHash },
      sha256,
    ),
    request: scope ?? WHOLE_JOB,
    job,
    checkpoint,
    made,
    thread: thread.map(({ count, entryHash, receivedAt: at, read }) => ({
      count,
      hash: entryHash,
      receivedAt: at,
      read,
    })),
    stamps: collected.stamps.map(({ size, token, stampedAt, upTo }) => ({ size, token, stampedAt, upTo })),
    company: company.flatMap(({ count, read }) => (read ? [{ count, read }] : [])),
    heads: headsUsed(authors, receivedAt),
    photosHeld: new Set(photos.map((photo) => photo.sha256)),
  })
}

const signedZip = async (
  { origin, checkpoint, made }: Collected,
  small: readonly SmallFile[],
  photos: readonly HeldPhoto[],
  { job, release, log }: MakeRecordRequest,
): Promise<ReadableStream<Uint8Array>> => {
  const listed = [
    ...small.map(({ name, bytes }) => ({ name, sha256: toHex(sha256(bytes)) })),
    ...photos,
  ].sort(byName)
  const sums: SmallFile = { name: SUMS, bytes: toUtf8(writeSums(listed)) }
  const files = [...listed, { name: SUMS, sha256: toHex(sha256(sums.bytes)) }]
  const text = writeManifest({ origin, job, checkpoint, made, release, files })
  const manifest = toUtf8(await signNote(text, log.noteKey, log.sign, sha256))
  return writeZip([{ name: MANIFEST, bytes: manifest }, ...[...small, sums, ...photos].sort(byName)])
}
