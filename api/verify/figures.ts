import { canonicalJson } from '../domain/log/bytes.ts'
import { equalBytes, readUtf8, toHex, toUtf8 } from '../domain/log/encoding.ts'
import type { NoteKey } from '../domain/log/note.ts'
import { writeVerifierKey } from '../domain/log/note.ts'
import { fingerprintOf } from '../domain/record/fingerprint.ts'
import { headsUsed } from '../domain/record/heads.ts'
import { CHECK_PAGE, type ReadManifest } from '../domain/record/manifest.ts'
import { type RecordModel, recordModel, type StampModel } from '../domain/record/model.ts'
import { pageOf } from '../domain/record/page/page.ts'
import { type RecordRequest, statedRequest } from '../domain/record/request.ts'
import { tablesOf } from '../domain/record/tables/tables.ts'
import { LANGUAGES, type Language } from '../domain/words/words.ts'
import type { CheckedProof } from './authors.ts'
import type { Quoted } from './company.ts'
import type { Context } from './context.ts'
import type { EntryFile } from './entries.ts'
import type { LogState } from './inclusion.ts'
import { pageDifference } from './page-text.ts'
import type { Thread } from './thread.ts'

/** The text of a PDF, a string for each sheet, in the order in which it is drawn. Throws or rejects on a bad file. */
export type ReadPdfText = (pdf: Uint8Array) => Promise<readonly string[]>

export type FigureInput = {
  readonly manifest: ReadManifest | undefined
  readonly log: LogState
  readonly thread: Thread
  readonly entries: ReadonlyMap<number, EntryFile>
  readonly quoted: readonly Quoted[]
  readonly proofs: readonly CheckedProof[]
  readonly photosHeld: ReadonlySet<string>
  readonly stamps: readonly StampModel[]
  readonly readPdfText: ReadPdfText | undefined
}

/** What was compared with what the entries come to. */
export type FiguresChecked = {
  readonly figures: 'compared' | 'not-compared'
  readonly pdf: 'compared' | 'not-compared'
}

/** L41.11: record.json, tables and PDF are worked out again from the entries, and must be equal. */
export const checkFigures = async (context: Context, input: FigureInput): Promise<FiguresChecked> => {
  const { archive, report } = context
  const stated = await archive.bytes('record.json')
  const asked = stated && askedOf(stated)
  if (stated && !asked)
    report(
      'figures-differ',
      'record.json',
      'it is no record’s model in a language, and of a request, that this checker knows',
    )
  const model = asked && modelOf(context, input, asked)
  if (!model) return { figures: 'not-compared', pdf: 'not-compared' }
  if (stated && !equalBytes(stated, toUtf8(canonicalJson(model))))
    report('figures-differ', 'record.json', 'it is not what the entries come to')
  await checkTables(context, model)
  const pdf = await archive.bytes('record.pdf')
  if (!pdf || !input.readPdfText) return { figures: 'compared', pdf: 'not-compared' }
  const difference = await pageDifference(pageOf(model), () => input.readPdfText!(pdf))
  if (difference) report('pdf-differs', 'record.pdf', difference)
  return { figures: 'compared', pdf: 'compared' }
}

/** What no entry can say: the language that was asked for, and what the record was to be of. */
type Asked = { readonly language: Language; readonly request: RecordRequest }

const askedOf = (bytes: Uint8Array): Asked | undefined => {
  try {
    const value: unknown = JSON.parse(readUtf8(bytes) ?? '')
    if (typeof value !== 'object' || value === null || !('language' in value) || !('request' in value))
      return undefined
    const language = LANGUAGES.find((known) => known === value.language)
    const request = statedRequest(value.request)
    return language && request && { language, request }
  } catch {
    return undefined
  }
}

const modelOf = (
  { archive, senses }: Context,
  { manifest, log, thread, entries, quoted, proofs, photosHeld, stamps }: FigureInput,
  { language, request }: Asked,
): RecordModel | undefined => {
  const key: NoteKey | undefined = log.key
  const { release, job, made } = manifest ?? {}
  if (!key || !log.checkpoint || release === undefined || job === undefined || made === undefined)
    return undefined
  const lastLeaf = thread.hashes.at(-1)
  if (!lastLeaf) return undefined
  const receivedAt = new Map<string, number>()
  for (const leaf of [...thread.leaves, ...quoted.map((q) => q.leaf)])
    if (leaf) receivedAt.set(toHex(leaf.entryHash), leaf.receivedAt)
  return recordModel({
    language,
    release,
    origin: key.name,
    logKey: writeVerifierKey(key, senses.sha256),
    checkerHash: archive.hashOf(CHECK_PAGE),
    fingerprint: fingerprintOf(
      { origin: key.name, checkpoint: log.checkpoint, count: thread.hashes.length, lastLeaf },
      senses.sha256,
    ),
    request,
    job,
    checkpoint: log.checkpoint,
    made,
    thread: thread.leaves.flatMap((leaf, i) =>
      leaf
        ? [
            {
              count: i + 1,
              hash: toHex(leaf.entryHash),
              receivedAt: leaf.receivedAt,
              read: entries.get(i + 1)?.read,
            },
          ]
        : [],
    ),
    company: quoted.flatMap(({ leaf, file }) =>
      leaf && file?.read ? [{ count: leaf.count, read: file.read }] : [],
    ),
    heads: headsUsed(proofs, receivedAt),
    photosHeld,
    stamps,
  })
}

const checkTables = async ({ archive, report }: Context, model: RecordModel): Promise<void> => {
  const tables = new Map(tablesOf(model).map((table) => [table.name, toUtf8(table.text)]))
  for (const name of archive.names) {
    if (!name.startsWith('tables/')) continue
    const wanted = tables.get(name)
    const stated = await archive.bytes(name)
    if (!wanted || !stated || !equalBytes(wanted, stated))
      report('table-differs', name, 'it is not what the entries come to')
  }
}
