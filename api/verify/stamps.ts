import { readCheckpoint } from '../domain/log/checkpoint.ts'
import { readHex } from '../domain/log/encoding.ts'
import { verifyInclusion } from '../domain/log/proof.ts'
import { readTlogProof } from '../domain/log/proof-file.ts'
import type { StampModel } from '../domain/record/model.ts'
import { readLocalTime } from '../domain/time.ts'
import { type Quoted, quotedOf } from './company.ts'
import { type Context, namesOf } from './context.ts'
import type { Earlier } from './earlier.ts'
import type { LogState } from './inclusion.ts'
import type { ReadTimestamp } from './stamp-claim.ts'
import type { Thread } from './thread.ts'

/** What became of one time stamp of a record. */
export type ToldStamp = {
  readonly size: number
  /** The authority's time, ms; undefined where the token was not read, or says none. */
  readonly at?: number
  readonly authority?: string
  /** Whether its chain of certificates ends in one that was given as trusted, or in what the token itself brings. */
  readonly rootedIn?: 'given' | 'token'
  /** The job's entries from the first to this one were in the log when it was stamped. */
  readonly upTo?: number
  readonly is: 'holds' | 'fails' | 'not-checked'
}

export type StampsChecked = { readonly told: readonly ToldStamp[]; readonly models: readonly StampModel[] }

export type StampInput = {
  readonly log: LogState
  readonly thread: Thread
  readonly quoted: readonly Quoted[]
  readonly earlier: Earlier
  /** Without it the tokens are not read, and the answer says so. */
  readonly readTimestamp: ReadTimestamp | undefined
  readonly roots: readonly Uint8Array[]
}

/** L57–L58, L41.12: each stamp that the quoted entries name, with the state of the log that it is over. */
export const checkStamps = async (context: Context, input: StampInput): Promise<StampsChecked> => {
  const { archive, report } = context
  const told: ToldStamp[] = []
  const models: StampModel[] = []
  const sizes = new Set<string>()
  for (const { entry, index, hash } of quotedOf(input.quoted, 'checkpoint.stamped')) {
    const { size, token, stampedAt } = entry.body
    const name = `stamps/${size}.tsr`
    if (sizes.has(String(size))) {
      report('stamp-differs', `company/${hash}.json`, 'another quoted entry names a stamp of the same size')
      continue
    }
    sizes.add(String(size))
    const reported: string[] = []
    const own: Context = {
      ...context,
      report: (code, file, detail) => {
        reported.push(code)
        report(code, file, detail)
      },
    }
    if (index !== undefined && index < size)
      own.report('stamp-differs', name, 'the entry that names it lies before the state that it is over')
    const upTo = await checkReach(own, input, size)
    const note = await checkNote(own, input, size)
    const response = await archive.bytes(name)
    if (!response)
      own.report('stamp-missing', name, 'an entry of the log names it, and it is not in the record')
    else if (archive.hashOf(name) !== token)
      own.report('stamp-differs', name, 'its bytes are not those that the log names')
    const said = response && note ? await readToken(own, input, name, response, note, entry.body) : undefined
    if (upTo !== undefined) models.push({ size, token, stampedAt, upTo })
    told.push({
      size,
      ...(said ?? {}),
      ...(upTo === undefined ? {} : { upTo }),
      is: reported.length > 0 ? 'fails' : said ? 'holds' : 'not-checked',
    })
  }
  for (const { name, found } of namesOf(context, /^stamps\/([1-9]\d{0,15})\.(?:tsr|tlog-proof)$/))
    if (!sizes.has(found)) report('file-unlisted', name, 'no quoted entry names a stamp of this size')
  return { told, models }
}

/** Which of the job's entries was the last in the log at that size: its leaf is shown to be in the stamped tree. */
const checkReach = async (
  { archive, report, senses }: Context,
  { thread, earlier }: StampInput,
  size: number,
): Promise<number | undefined> => {
  const name = `stamps/${size}.tlog-proof`
  const bytes = await archive.bytes(name)
  const root = earlier.get(size)
  if (!bytes) {
    report('file-missing', name, 'the record does not hold it')
    return undefined
  }
  const proof = readTlogProof(bytes)
  if (!proof.ok) {
    const code = proof.problem.code === 'format-unknown' ? 'format-unknown' : 'inclusion-failed'
    report(code, name, 'it is no proof that this checker can read')
    return undefined
  }
  // Without a way from that size there is no root to check against, which is reported as such.
  if (!root) return undefined
  const { index, path } = proof.value
  const at = thread.hashes.findLastIndex((leafHash) =>
    verifyInclusion({ index, size, leafHash, root, path }, senses.sha256),
  )
  if (at >= 0) return at + 1
  report('inclusion-failed', name, 'it leads from none of the job’s entries to the stamped state')
  return undefined
}

/** The stamped note: signed by the log, and of a state from which this record's checkpoint follows. */
const checkNote = async (
  { archive, report, notes }: Context,
  { log, earlier }: StampInput,
  size: number,
): Promise<Uint8Array | undefined> => {
  const name = `earlier/${size}.note`
  const bytes = await archive.bytes(name)
  if (!bytes) {
    report('file-missing', name, 'a time stamp is over it')
    return undefined
  }
  if (!earlier.has(size))
    report('consistency-missing', `earlier/${size}.consistency`, 'a time stamp is over a state of that size')
  const note = await notes.open(bytes, log.key)
  const read = note && readCheckpoint(note.text)
  if (!note?.signed || !read?.ok || read.value.size !== size)
    report(
      'stamp-differs',
      `stamps/${size}.tsr`,
      'what it is over is no checkpoint of that size, signed by the log',
    )
  return bytes
}

const readToken = async (
  { report }: Context,
  { readTimestamp, roots }: StampInput,
  name: string,
  response: Uint8Array,
  stamped: Uint8Array,
  body: { readonly nonce: string; readonly stampedAt: string },
): Promise<Pick<ToldStamp, 'at' | 'authority' | 'rootedIn'> | undefined> => {
  if (!readTimestamp) return undefined
  const { said, problems } = await readTimestamp(response, { stamped, nonce: readHex(body.nonce)!, roots })
  for (const { code, detail } of problems) report(code, name, detail)
  if (said && said.at !== readLocalTime(body.stampedAt))
    report('stamp-differs', name, 'the log names another time than the token')
  return said
}
