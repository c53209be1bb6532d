import { fail, ok, type Result } from '../result.ts'
import { readRoot, readSize, type TreeHead } from './checkpoint.ts'
import { readUtf8, toBase64, toUtf8 } from './encoding.ts'

/** A leaf's place in a signed tree: L33. `note` is the whole note, still to be opened. */
export type TlogProof = {
  readonly index: number
  readonly path: readonly Uint8Array[]
  readonly note: Uint8Array
}

const TLOG_PROOF = 'c2sp.org/tlog-proof@v1'
const CONSISTENCY = 'screedbook-consistency/v1'
const MAX_PATH = 64

/** Source: C2SP tlog-proof, Format. */
export const writeTlogProof = (proof: { index: number; path: readonly Uint8Array[]; note: string }): string =>
  [TLOG_PROOF, `index ${proof.index}`, ...proof.path.map(toBase64), '', proof.note].join('\n')

type ProofProblem = 'proof-malformed' | 'format-unknown'

/** Fails: `format-unknown` where the first line is another, `proof-malformed`. */
export const readTlogProof = (bytes: Uint8Array): Result<TlogProof, ProofProblem> => {
  const text = readUtf8(bytes)
  if (text === undefined) return fail('proof-malformed')
  if (!text.startsWith(`${TLOG_PROOF}\n`))
    return fail(otherVersion(text, TLOG_PROOF) ? 'format-unknown' : 'proof-malformed')
  const at = text.indexOf('\n\n')
  if (at < 0) return fail('proof-malformed')
  const lines = text.slice(TLOG_PROOF.length + 1, at).split('\n')
  if (lines[0]?.startsWith('extra ')) lines.shift()
  const index = readSize(/^index (.*)$/.exec(lines.shift() ?? '')?.[1] ?? '')
  const path = readHashes(lines)
  if (index === undefined || !path) return fail('proof-malformed')
  return ok({ index, path, note: toUtf8(text.slice(at + 2)) })
}

/** That a later tree of the company log extends an earlier one: L34. */
export type ConsistencyFile = {
  readonly old: TreeHead
  readonly new: TreeHead
  readonly path: readonly Uint8Array[]
}

export const writeConsistency = (file: ConsistencyFile): string =>
  [
    CONSISTENCY,
    String(file.old.size),
    toBase64(file.old.root),
    String(file.new.size),
    toBase64(file.new.root),
    ...file.path.map(toBase64),
    '',
  ].join('\n')

export const readConsistency = (bytes: Uint8Array): Result<ConsistencyFile, ProofProblem> => {
  const text = readUtf8(bytes)
  if (text === undefined) return fail('proof-malformed')
  if (!text.startsWith(`${CONSISTENCY}\n`))
    return fail(otherVersion(text, CONSISTENCY) ? 'format-unknown' : 'proof-malformed')
  if (!text.endsWith('\n')) return fail('proof-malformed')
  const [oldSize, oldRoot, newSize, newRoot, ...hashes] = text.slice(CONSISTENCY.length + 1, -1).split('\n')
  const older = readTreeHead(oldSize, oldRoot)
  const newer = readTreeHead(newSize, newRoot)
  const path = readHashes(hashes)
  return older && newer && path ? ok({ old: older, new: newer, path }) : fail('proof-malformed')
}

export const readTreeHead = (sizeText = '', rootText = ''): TreeHead | undefined => {
  const size = readSize(sizeText)
  const root = readRoot(rootText)
  return size !== undefined && root ? { size, root } : undefined
}

const readHashes = (lines: readonly string[]): Uint8Array[] | undefined => {
  const hashes = lines.map((line) => readRoot(line))
  return lines.length <= MAX_PATH && hashes.every((hash) => hash !== undefined)
    ? (hashes as Uint8Array[])
    : undefined
}

/** Whether the first line names this format in a version that we don't know: L44. */
export const otherVersion = (text: string, format: string): boolean => {
  const stem = format.slice(0, -1)
  const [first = ''] = text.split('\n', 1)
  return first.startsWith(stem) && /^\d+$/.test(first.slice(stem.length)) && first !== format
}
