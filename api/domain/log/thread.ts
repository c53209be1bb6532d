import { fail, ok, type Result } from '../result.ts'
import type { Sha256 } from '../world.ts'
import { equalBytes, toHex } from './encoding.ts'
import { hashLeaf, type Leaf, NO_PREVIOUS, readLeaf, writeLeaf } from './leaf.ts'

/** Where a thread stands: what its next leaf must continue. */
export type ThreadEnd = { readonly tag: Uint8Array; readonly count: number; readonly last: Uint8Array }

export const newThread = (tag: Uint8Array): ThreadEnd => ({ tag, count: 0, last: NO_PREVIOUS })

/** The next leaf of a thread, its hash, and the thread's new end. */
export const extendThread = (
  end: ThreadEnd,
  entryHash: Uint8Array,
  receivedAt: number,
  sha256: Sha256,
): { leaf: Leaf; bytes: Uint8Array; leafHash: Uint8Array; end: ThreadEnd } => {
  const leaf: Leaf = { receivedAt, tag: end.tag, count: end.count + 1, previous: end.last, entryHash }
  const bytes = writeLeaf(leaf)
  const leafHash = hashLeaf(bytes, sha256)
  return { leaf, bytes, leafHash, end: { tag: end.tag, count: leaf.count, last: leafHash } }
}

export type ThreadProblem =
  | 'leaf-malformed'
  | 'leaf-format-unknown'
  | 'thread-count'
  | 'thread-link'
  | 'thread-tag'
  | 'leaf-repeated'

/** Every finding about a thread's leaves from first to last (L13–L15); `at` is the place in the thread, from 1. */
export const checkThread = (
  leaves: readonly Uint8Array[],
  sha256: Sha256,
): {
  findings: { code: ThreadProblem; count: number }[]
  leaves: (Leaf | undefined)[]
  end: ThreadEnd | undefined
} => {
  const findings: { code: ThreadProblem; count: number }[] = []
  const read: (Leaf | undefined)[] = []
  const seen = new Set<string>()
  let tag: Uint8Array | undefined
  let previous: Uint8Array = NO_PREVIOUS
  for (const [i, bytes] of leaves.entries()) {
    const count = i + 1
    const leaf = readLeaf(bytes)
    if (!leaf.ok) {
      findings.push({ code: leaf.problem.code, count })
      read.push(undefined)
      previous = hashLeaf(bytes, sha256)
      continue
    }
    read.push(leaf.value)
    tag ??= leaf.value.tag
    if (leaf.value.count !== count) findings.push({ code: 'thread-count', count })
    if (!equalBytes(leaf.value.previous, previous)) findings.push({ code: 'thread-link', count })
    if (!equalBytes(leaf.value.tag, tag)) findings.push({ code: 'thread-tag', count })
    const hash = toHex(leaf.value.entryHash)
    if (seen.has(hash)) findings.push({ code: 'leaf-repeated', count })
    seen.add(hash)
    previous = hashLeaf(bytes, sha256)
  }
  return { findings, leaves: read, end: tag && { tag, count: leaves.length, last: previous } }
}

/** Whether a new leaf continues the thread as its receiver knows it (a phone checks each leaf that it pulls). */
export const continueThread = (
  end: ThreadEnd | undefined,
  bytes: Uint8Array,
  sha256: Sha256,
): Result<{ leaf: Leaf; end: ThreadEnd }, ThreadProblem> => {
  const leaf = readLeaf(bytes)
  if (!leaf.ok) return leaf
  const from = end ?? newThread(leaf.value.tag)
  if (!equalBytes(leaf.value.tag, from.tag)) return fail('thread-tag')
  if (leaf.value.count !== from.count + 1) return fail('thread-count')
  if (!equalBytes(leaf.value.previous, from.last)) return fail('thread-link')
  const last = hashLeaf(bytes, sha256)
  return ok({ leaf: leaf.value, end: { tag: from.tag, count: leaf.value.count, last } })
}
