import { toHex } from '../domain/log/encoding.ts'
import type { NoteKey } from '../domain/log/note.ts'
import type { ReadManifest } from '../domain/record/manifest.ts'
import type { Sha256, VerifySignature } from '../domain/world.ts'
import { type HashFile, openArchive } from './archive.ts'
import { type CheckedProof, checkAuthors, checkForks } from './authors.ts'
import { checkCompany, checkFounding, checkQuotedLinks, type Quoted } from './company.ts'
import type { Context } from './context.ts'
import { readDevices } from './devices.ts'
import { checkEarlier } from './earlier.ts'
import { checkEntries, type EntryFile } from './entries.ts'
import { checkFigures, type FiguresChecked, type ReadPdfText } from './figures.ts'
import { collectFindings, type Finding, type FindingCode, isFailure } from './findings.ts'
import { checkCheckpoint, checkFiles, checkKey, checkManifest, checkSums } from './frame.ts'
import type { LogState } from './inclusion.ts'
import { noteOpener } from './notes.ts'
import { checkPhotos } from './photos.ts'
import { checkQuarantine } from './quarantine.ts'
import { type Reader, readerOf } from './reader.ts'
import { checkSlip, type GivenSlip } from './slip.ts'
import type { ReadTimestamp } from './stamp-claim.ts'
import { checkStamps, type StampsChecked, type ToldStamp } from './stamps.ts'
import { checkThread, NO_THREAD, type Thread } from './thread.ts'
import { type ToldEntry, tellEntries } from './told-entries.ts'

export type VerifySenses = {
  /** For the many small things that a log hashes. */
  readonly sha256: Sha256
  /** For the record's files, some of them large. */
  readonly hashFile: HashFile
  readonly verify: VerifySignature
  /** Without it the PDF's text is not compared, and the answer says so. */
  readonly readPdfText?: ReadPdfText
  /** Without it time stamps are not read, and the answer says so. */
  readonly readTimestamp?: ReadTimestamp
  /** Certificates (DER) of time-stamp authorities that one trusts, had from elsewhere. */
  readonly stampRoots?: readonly Uint8Array[]
  /** The log's key, had from elsewhere than the record. */
  readonly logKey?: NoteKey
  readonly slip?: GivenSlip
}

export type Verdict = {
  /** No finding but that entries are of a newer program. */
  readonly holds: boolean
  readonly findings: readonly Finding[]
  readonly keySource: 'given' | 'record' | 'none'
  /** The thread, place by place: what became of each entry. */
  readonly entries: readonly ToldEntry[]
  readonly stamps: readonly ToldStamp[]
  readonly checked: FiguresChecked & {
    readonly files: number
    readonly leaves: number
    readonly entries: number
    /** Counts of the thread's entries that the record withholds. */
    readonly withheld: readonly number[]
    readonly quoted: number
    readonly authors: number
    readonly earlier: number
    readonly photos: number
    readonly slips: number
    /** Signatures verified, each pair of note and key once. */
    readonly signatures: number
  }
}

const NOT_COMPARED: FiguresChecked = { figures: 'not-compared', pdf: 'not-compared' }
const NOTHING: Verdict['checked'] = {
  ...NOT_COMPARED,
  files: 0,
  leaves: 0,
  entries: 0,
  withheld: [],
  quoted: 0,
  authors: 0,
  earlier: 0,
  photos: 0,
  slips: 0,
  signatures: 0,
}

/**
 * Checks a record by SPEC §10 and gives every finding. Never throws on a damaged or hostile file: what was not foreseen
 * is a finding of the step in which it happened. Of a file that is no ZIP at all, that is the one finding. Throws only where the reader itself fails.
 */
export const verifyRecord = async (record: Uint8Array | Reader, senses: VerifySenses): Promise<Verdict> => {
  const { findings, report } = collectFindings()
  const reader = record instanceof Uint8Array ? readerOf(record) : record
  const archive = await openArchive(reader, senses.hashFile, report)
  if (!archive.isZip)
    return {
      holds: false,
      findings,
      keySource: senses.logKey ? 'given' : 'none',
      entries: [],
      stamps: [],
      checked: NOTHING,
    }
  const notes = noteOpener(senses)
  const context: Context = { archive, report, notes, senses }
  const step = stepper(report)

  const key = await step('key-malformed', 'log.vkey', senses.logKey, () => checkKey(context, senses.logKey))
  const manifest = await step<ReadManifest | undefined>(
    'manifest-malformed',
    'manifest.note',
    undefined,
    () => checkManifest(context, key),
  )
  await step('file-differs', '-', undefined, async () => checkFiles(context, manifest))
  await step('sums-differ', 'SHA256SUMS', undefined, () => checkSums(context, manifest))
  const checkpoint = await step('checkpoint-malformed', 'checkpoint.note', manifest?.checkpoint, () =>
    checkCheckpoint(context, key, manifest),
  )
  const log: LogState = { key, checkpoint }
  const origin = key?.name ?? manifest?.origin
  const thread = await step('leaf-malformed', 'thread.txt', NO_THREAD, () => checkThread(context, log))
  const entries = await step<ReadonlyMap<number, EntryFile>>('entry-malformed', '-', new Map(), () =>
    checkEntries(context, thread, manifest?.job),
  )
  const quoted = await step<Quoted[]>('entry-malformed', '-', [], () =>
    checkCompany(context, log, origin?.split('/')[1]),
  )
  await step('thread-link', '-', undefined, async () => {
    checkQuotedLinks(context, quoted, thread)
    checkFounding(context, quoted, key)
    checkQuarantine(context, quoted, thread)
    checkMade(context, manifest, log, thread, quoted)
  })
  const missing = thread.leaves.flatMap((leaf, i) => (leaf && !entries.has(i + 1) ? [i + 1] : []))
  const given = new Set([...entries.values()].map((file) => file.hash))
  const withheld = new Set(
    thread.leaves.flatMap((leaf) => (leaf ? [toHex(leaf.entryHash)] : [])).filter((h) => !given.has(h)),
  )
  const proofs = await step<CheckedProof[]>('author-proof', '-', [], () =>
    checkAuthors(context, {
      entries: [...entries.values(), ...quoted.flatMap((q) => (q.file ? [q.file] : []))],
      withheld,
      devices: readDevices(context, quoted),
      origin,
    }),
  )
  await step('heads-fork', '-', undefined, async () => checkForks(context, proofs))
  const earlier = await step('consistency-failed', '-', new Map<number, Uint8Array>(), () =>
    checkEarlier(context, log, proofs),
  )
  const photosHeld = await step<ReadonlySet<string>>('photo-differs', '-', new Set(), async () =>
    checkPhotos(context, entries, withheld),
  )
  const stamps = await step<StampsChecked>('stamp-malformed', '-', { told: [], models: [] }, () =>
    checkStamps(context, {
      log,
      thread,
      quoted,
      earlier,
      readTimestamp: senses.readTimestamp,
      roots: senses.stampRoots ?? [],
    }),
  )
  const { slip, readPdfText } = senses
  if (slip)
    await step('slip-malformed', slip.name, undefined, async () =>
      checkSlip(context, log, thread, earlier, slip),
    )
  const compared = await step('figures-differ', 'record.json', NOT_COMPARED, () =>
    checkFigures(context, {
      manifest,
      log,
      thread,
      entries,
      quoted,
      proofs,
      photosHeld,
      stamps: stamps.models,
      readPdfText,
    }),
  )
  return {
    holds: !findings.some(isFailure),
    findings,
    keySource: senses.logKey ? 'given' : key ? 'record' : 'none',
    entries: tellEntries(thread, entries, findings),
    stamps: stamps.told,
    checked: {
      ...compared,
      files: archive.names.length,
      leaves: thread.leaves.filter((leaf) => leaf !== undefined).length,
      entries: entries.size,
      withheld: missing,
      quoted: quoted.length,
      authors: proofs.filter((proof) => proof.holds).length,
      earlier: earlier.size,
      photos: photosHeld.size,
      slips: slip ? 1 : 0,
      signatures: notes.verified(),
    },
  }
}

/** L38: `made` is the last leaf's time of receipt, which is known where this record holds that leaf. */
const checkMade = (
  { report }: Context,
  manifest: ReadManifest | undefined,
  { checkpoint }: LogState,
  thread: Thread,
  quoted: readonly Quoted[],
): void => {
  if (manifest?.made === undefined || !checkpoint) return
  const placed = [...quoted, { index: thread.lastIndex, leaf: thread.leaves.at(-1) }]
  for (const { index, leaf } of placed)
    if (index === checkpoint.size - 1 && leaf && leaf.receivedAt !== manifest.made)
      report(
        'manifest-malformed',
        'manifest.note',
        '"made" is not the time of receipt of the checkpoint’s last leaf',
      )
}

type Step = <T>(code: FindingCode, file: string, otherwise: T, run: () => Promise<T>) => Promise<T>

/** No damage ends the check: a step that breaks off is a finding, and the others go on. */
const stepper =
  (report: Context['report']): Step =>
  async (code, file, otherwise, run) => {
    try {
      return await run()
    } catch (error) {
      report(code, file, `the check stopped here: ${error instanceof Error ? error.message : String(error)}`)
      return otherwise
    }
  }
