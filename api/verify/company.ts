import type { EntryOf } from '../domain/entry/envelope.ts'
import type { Kind } from '../domain/entry/registry.ts'
import { equalBytes, readBase64, readHex, readUtf8, toHex } from '../domain/log/encoding.ts'
import { hashLeaf, type Leaf, NO_PREVIOUS, readLeaf } from '../domain/log/leaf.ts'
import type { NoteKey } from '../domain/log/note.ts'
import { type Context, namesOf } from './context.ts'
import { checkEntryBytes, type EntryFile, knownEntry } from './entries.ts'
import { checkInclusion, type LogState } from './inclusion.ts'
import type { Thread } from './thread.ts'

/** An entry quoted from the company's own affairs, as far as its three files could be read. */
export type Quoted = {
  readonly hash: string
  readonly file: EntryFile | undefined
  readonly leaf: Leaf | undefined
  readonly leafHash: Uint8Array | undefined
  readonly index: number | undefined
}

/** L41.5: each quoted entry with its leaf and its own proof, in the order of their counts. */
export const checkCompany = async (
  context: Context,
  log: LogState,
  company: string | undefined,
): Promise<Quoted[]> => {
  const hashes = new Set(
    namesOf(context, /^company\/([0-9a-f]{64})\.(?:json|leaf|tlog-proof)$/).map(({ found }) => found),
  )
  const quoted: Quoted[] = []
  for (const hash of hashes) quoted.push(await checkQuoted(context, log, company, hash))
  return quoted.sort((a, b) => (a.leaf?.count ?? 0) - (b.leaf?.count ?? 0) || (a.hash < b.hash ? -1 : 1))
}

const checkQuoted = async (
  context: Context,
  log: LogState,
  company: string | undefined,
  hash: string,
): Promise<Quoted> => {
  const { archive, report } = context
  const [name, leafName] = [`company/${hash}.json`, `company/${hash}.leaf`]
  const bytes = await archive.bytes(name)
  const leafBytes = await archive.bytes(leafName)
  if (!bytes) report('file-missing', name, 'the record does not hold it')
  if (!leafBytes) report('file-missing', leafName, 'the record does not hold it')
  const file = bytes && checkEntryBytes(context, name, bytes, { thread: company, hash })
  if (file && file.hash !== hash) report('entry-differs', name, 'its bytes are not those that its name says')
  const { leaf, leafHash } = leafBytes ? checkLeafFile(context, leafName, leafBytes) : NO_LEAF
  if (leaf && toHex(leaf.entryHash) !== hash)
    report('entry-differs', leafName, 'it is the leaf of another entry')
  const index = await checkInclusion(context, log, `company/${hash}.tlog-proof`, leafHash)
  if (leaf && index !== undefined && leaf.count > index + 1)
    report('thread-count', leafName, 'too few leaves lie before its place in the log')
  return { hash, file, leaf, leafHash, index }
}

const NO_LEAF = { leaf: undefined, leafHash: undefined }

const checkLeafFile = (
  { report, senses }: Context,
  name: string,
  bytes: Uint8Array,
): Pick<Quoted, 'leaf' | 'leafHash'> => {
  const text = readUtf8(bytes)
  const raw = text?.endsWith('\n') ? readHex(text.slice(0, -1)) : undefined
  if (!raw) {
    report('leaf-malformed', name, 'it is not one leaf in hex and a newline')
    return NO_LEAF
  }
  const leaf = readLeaf(raw)
  if (!leaf.ok) report(leaf.problem.code, name, 'it is no leaf that this checker can read')
  return { leaf: leaf.ok ? leaf.value : undefined, leafHash: hashLeaf(raw, senses.sha256) }
}

/** L41.5: what the quoted leaves say of each other: one tag, counts that rise with the index, neighbours linked. */
export const checkQuotedLinks = ({ report }: Context, quoted: readonly Quoted[], thread: Thread): void => {
  const jobTag = thread.leaves.find((leaf) => leaf !== undefined)?.tag
  const jobEntries = new Set(thread.leaves.flatMap((leaf) => (leaf ? [toHex(leaf.entryHash)] : [])))
  let before: Quoted | undefined
  for (const each of quoted) {
    const { leaf, hash } = each
    if (!leaf) continue
    const name = `company/${hash}.leaf`
    if (jobTag && equalBytes(jobTag, leaf.tag))
      report('thread-tag', name, 'it bears the tag of the job’s thread')
    if (jobEntries.has(hash)) report('leaf-repeated', name, 'its entry is in the job’s thread too')
    if (leaf.count === 1 && !equalBytes(leaf.previous, NO_PREVIOUS))
      report('thread-link', name, 'a first leaf names none before it')
    if (before) checkPair(report, name, before, each)
    before = each
  }
}

const checkPair = (report: Context['report'], name: string, before: Quoted, each: Quoted): void => {
  const [a, b] = [before.leaf!, each.leaf!]
  if (!equalBytes(a.tag, b.tag))
    report('thread-tag', name, 'it bears another tag than the other quoted entries')
  if (a.count === b.count) report('thread-count', name, 'another quoted leaf has the same count')
  if (b.count === a.count + 1 && !equalBytes(b.previous, before.leafHash!))
    report('thread-link', name, 'it does not name the leaf before it')
  const gap = before.index === undefined || each.index === undefined ? undefined : each.index - before.index
  if (gap !== undefined && gap < b.count - a.count)
    report('thread-count', name, 'its count does not fit its place in the log')
}

export const quotedOf = <K extends Kind>(
  quoted: readonly Quoted[],
  kind: K,
): (Quoted & { entry: EntryOf<K> })[] =>
  quoted.flatMap((each) => {
    const entry = each.file && knownEntry(each.file)
    return entry?.kind === kind ? [{ ...each, entry: entry as EntryOf<K> }] : []
  })

/** L28, L41.5: the log's first entry names its origin and its key from within. */
export const checkFounding = (
  { report }: Context,
  quoted: readonly Quoted[],
  key: NoteKey | undefined,
): void => {
  const foundings = quotedOf(quoted, 'company.founded')
  if (foundings.length === 0) report('founding-missing', '-', 'no entry that founds the company is quoted')
  for (const { hash, entry, index } of foundings) {
    const name = `company/${hash}.json`
    const own = readBase64(entry.body.logKey)
    if (key && entry.body.origin !== key.name) report('founding-differs', name, 'it names another origin')
    if (key && own && !equalBytes(own, key.publicKey))
      report('founding-differs', name, 'it names another key of the log')
    if (index !== undefined && index !== 0)
      report('founding-differs', name, 'it is not the log’s first entry')
  }
}
