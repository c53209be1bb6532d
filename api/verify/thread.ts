import { readHex, readUtf8 } from '../domain/log/encoding.ts'
import { hashLeaf, type Leaf } from '../domain/log/leaf.ts'
import { checkThread as checkLeaves, type ThreadProblem } from '../domain/log/thread.ts'
import type { Context } from './context.ts'
import { checkInclusion, type LogState } from './inclusion.ts'

/** The job's thread as the record holds it: by place, from the first. Undefined where a leaf can't be read. */
export type Thread = {
  readonly leaves: readonly (Leaf | undefined)[]
  readonly hashes: readonly Uint8Array[]
  /** Counts of the lines in which something is off. */
  readonly wrong: ReadonlySet<number>
  /** Index in the log of the last leaf, once shown. */
  readonly lastIndex: number | undefined
}

export const NO_THREAD: Thread = { leaves: [], hashes: [], wrong: new Set(), lastIndex: undefined }

const FILE = 'thread.txt'
const SENTENCES: Readonly<Record<ThreadProblem, string>> = {
  'leaf-malformed': 'is no leaf of 97 bytes',
  'leaf-format-unknown': 'is of a format that this checker does not know',
  'thread-count': 'bears another count than its place',
  'thread-link': 'does not name the leaf before it',
  'thread-tag': 'bears another thread tag than the first',
  'leaf-repeated': 'has an entry that an earlier line has',
}

/** L13–L15 and L41.3: every leaf from first to last, and the last one in the checkpoint's tree. */
export const checkThread = async (context: Context, log: LogState): Promise<Thread> => {
  const { archive, report, senses } = context
  const bytes = await archive.bytes(FILE)
  const text = bytes && readUtf8(bytes)
  if (!bytes) return NO_THREAD
  if (!text?.endsWith('\n')) {
    report('leaf-malformed', FILE, 'it does not consist of whole lines')
    return NO_THREAD
  }
  const lines = text.slice(0, -1).split('\n')
  // A line that is no hex is read as a leaf of no bytes, which is malformed too.
  const raw = lines.map((line) => readHex(line) ?? new Uint8Array())
  const { findings, leaves } = checkLeaves(raw, senses.sha256)
  for (const { code, count } of findings) report(code, FILE, `line ${count} ${SENTENCES[code]}`)
  const hashes = raw.map((leaf) => hashLeaf(leaf, senses.sha256))
  const lastIndex = await checkInclusion(context, log, 'thread.tlog-proof', hashes.at(-1))
  const last = leaves.at(-1)
  if (lastIndex !== undefined && last && last.count > lastIndex + 1)
    report('thread-count', FILE, `line ${lines.length}: too few leaves lie before its place in the log`)
  return { leaves, hashes, wrong: new Set(findings.map(({ count }) => count)), lastIndex }
}
