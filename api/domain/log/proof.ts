import type { Sha256 } from '../world.ts'
import { equalBytes } from './encoding.ts'
import { hashNode } from './leaf.ts'

/** The largest power of two smaller than n (n > 1): where RFC 6962 §2.1 splits a tree. */
const split = (n: number): number => {
  let k = 1
  while (k * 2 < n) k *= 2
  return k
}

/** A source of subtree roots, so that a caller may keep them rather than hash a whole log again. */
export type Subtree = (from: number, to: number) => Uint8Array

/** Subtree roots out of all leaf hashes of a tree; whole aligned subtrees are remembered. */
export const subtrees = (leafHashes: readonly Uint8Array[], sha256: Sha256): Subtree => {
  const known = new Map<string, Uint8Array>()
  const subtree: Subtree = (from, to) => {
    if (to - from === 0) return sha256(new Uint8Array())
    if (to - from === 1) return leafHashes[from]!
    const key = `${from}-${to}`
    const before = known.get(key)
    if (before) return before
    const k = split(to - from)
    const root = hashNode(subtree(from, from + k), subtree(from + k, to), sha256)
    known.set(key, root)
    return root
  }
  return subtree
}

/** Audit path of the leaf at `index` in the tree of `size` leaves. Source: RFC 6962 §2.1.1. */
export const inclusionProof = (index: number, size: number, subtree: Subtree): Uint8Array[] => {
  const path = (m: number, from: number, to: number): Uint8Array[] => {
    const n = to - from
    if (n <= 1) return []
    const k = split(n)
    return m < k
      ? [...path(m, from, from + k), subtree(from + k, to)]
      : [...path(m - k, from + k, to), subtree(from, from + k)]
  }
  return path(index, 0, size)
}

/** Proof that the tree of `newSize` extends that of `oldSize` (0 < old ≤ new). Source: RFC 6962 §2.1.2. */
export const consistencyProof = (oldSize: number, newSize: number, subtree: Subtree): Uint8Array[] => {
  const sub = (m: number, from: number, to: number, whole: boolean): Uint8Array[] => {
    const n = to - from
    if (m === n) return whole ? [] : [subtree(from, to)]
    const k = split(n)
    return m <= k
      ? [...sub(m, from, from + k, whole), subtree(from + k, to)]
      : [...sub(m - k, from + k, to, false), subtree(from, from + k)]
  }
  return oldSize === 0 || oldSize === newSize ? [] : sub(oldSize, 0, newSize, true)
}

const isOdd = (n: number): boolean => n % 2 === 1
const half = (n: number): number => Math.floor(n / 2)

/** Whether the path leads from the leaf hash at `index` to the root. Source: RFC 9162 §2.1.3.2, step by step. */
export const verifyInclusion = (
  claim: { index: number; size: number; leafHash: Uint8Array; root: Uint8Array; path: readonly Uint8Array[] },
  sha256: Sha256,
): boolean => {
  if (!inRange(claim.index) || !inRange(claim.size) || claim.index >= claim.size) return false
  let fn = claim.index
  let sn = claim.size - 1
  let r = claim.leafHash
  for (const p of claim.path) {
    if (sn === 0 || p.length !== 32) return false
    if (isOdd(fn) || fn === sn) {
      r = hashNode(p, r, sha256)
      // On the right edge the levels at which this node has no sibling are skipped.
      while (!isOdd(fn) && fn !== 0) {
        fn = half(fn)
        sn = half(sn)
      }
    } else r = hashNode(r, p, sha256)
    fn = half(fn)
    sn = half(sn)
  }
  return sn === 0 && equalBytes(r, claim.root)
}

/** Whether the newer tree extends the older. Source: RFC 9162 §2.1.4.2. Size 0 is extended by every tree (SPEC L34). */
export const verifyConsistency = (
  claim: {
    oldSize: number
    oldRoot: Uint8Array
    newSize: number
    newRoot: Uint8Array
    path: readonly Uint8Array[]
  },
  sha256: Sha256,
): boolean => {
  const { oldSize, oldRoot, newSize, newRoot } = claim
  if (!inRange(oldSize) || !inRange(newSize) || oldSize > newSize) return false
  if (oldSize === 0) return claim.path.length === 0 && equalBytes(oldRoot, sha256(new Uint8Array()))
  if (oldSize === newSize) return claim.path.length === 0 && equalBytes(oldRoot, newRoot)
  // Step 2: where the old size is a power of two, its root is itself the first node.
  const path = Number.isInteger(Math.log2(oldSize)) ? [oldRoot, ...claim.path] : claim.path
  const first = path[0]
  if (!first || claim.path.length === 0) return false
  let fn = oldSize - 1
  let sn = newSize - 1
  while (isOdd(fn)) {
    fn = half(fn)
    sn = half(sn)
  }
  let fr = first
  let sr = first
  for (const c of path.slice(1)) {
    if (sn === 0 || c.length !== 32) return false
    if (isOdd(fn) || fn === sn) {
      fr = hashNode(c, fr, sha256)
      sr = hashNode(c, sr, sha256)
      while (!isOdd(fn) && fn !== 0) {
        fn = half(fn)
        sn = half(sn)
      }
    } else sr = hashNode(sr, c, sha256)
    fn = half(fn)
    sn = half(sn)
  }
  return sn === 0 && equalBytes(fr, oldRoot) && equalBytes(sr, newRoot)
}

const inRange = (n: number): boolean => Number.isSafeInteger(n) && n >= 0
