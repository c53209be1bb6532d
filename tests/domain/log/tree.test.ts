import { describe, expect, test } from 'vitest'
import { readHex, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { hashLeaf, hashNode } from '../../../api/domain/log/leaf.ts'
import {
  consistencyProof,
  inclusionProof,
  subtrees,
  verifyConsistency,
  verifyInclusion,
} from '../../../api/domain/log/proof.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../../api/domain/log/tree.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { cases } from '../../kit/cases.ts'

type Input = { leaf_hex: string | string[]; leaf_index?: number; tree_size?: number }
type Output = { root_hex?: string; leaf_hash_hex?: string; audit_path_hex?: string[] }
const published = cases<Input, Output>('merkle')
const hashesOf = (leaves: readonly string[]) => leaves.map((hex) => hashLeaf(readHex(hex)!, sha256))

describe(`[L11] ${published.claim}: ${published.source}`, () => {
  for (const { name, input, output } of published.rows)
    test(name, () => {
      if (output.leaf_hash_hex !== undefined)
        expect(toHex(hashLeaf(readHex(input.leaf_hex as string)!, sha256))).toBe(output.leaf_hash_hex)
      const hashes = typeof input.leaf_hex === 'string' ? [] : hashesOf(input.leaf_hex)
      if (output.root_hex !== undefined)
        expect(toHex(rootOf(appendAll(EMPTY_FRONTIER, hashes, sha256), sha256))).toBe(output.root_hex)
      if (output.audit_path_hex) {
        const path = inclusionProof(input.leaf_index!, input.tree_size!, subtrees(hashes, sha256))
        expect(path.map(toHex)).toEqual(output.audit_path_hex)
      }
    })
})

const MOST = 64
const LEAVES = Array.from({ length: MOST }, (_, i) => hashLeaf(toUtf8(`leaf ${i}`), sha256))
const ROOTS = Array.from({ length: MOST + 1 }, (_, n) =>
  rootOf(appendAll(EMPTY_FRONTIER, LEAVES.slice(0, n), sha256), sha256),
)

/** The definition itself, with no cleverness. Source: RFC 6962 §2.1. */
const plainRoot = (hashes: readonly Uint8Array[]): Uint8Array => {
  if (hashes.length === 0) return sha256(new Uint8Array())
  if (hashes.length === 1) return hashes[0]!
  let k = 1
  while (k * 2 < hashes.length) k *= 2
  return hashNode(plainRoot(hashes.slice(0, k)), plainRoot(hashes.slice(k)), sha256)
}

const flipped = (bytes: Uint8Array): Uint8Array => bytes.map((b, i) => (i === 0 ? b ^ 1 : b))

/** Every way to damage a path that keeps it a list of hashes. */
const damagedPaths = (path: readonly Uint8Array[]): Uint8Array[][] => [
  [...path, LEAVES[0]!],
  [LEAVES[0]!, ...path],
  ...path.map((_, i) => path.map((p, j) => (i === j ? flipped(p) : p))),
  ...path.map((_, i) => path.filter((_p, j) => i !== j)),
  ...path.slice(1).map((_, i) => path.map((p, j) => (j === i ? path[i + 1]! : j === i + 1 ? path[i]! : p))),
]

test(`[L11] the appended root is the defined root, for every size up to ${MOST}`, () => {
  for (let n = 0; n <= MOST; n++) expect(toHex(ROOTS[n]!)).toBe(toHex(plainRoot(LEAVES.slice(0, n))))
})

test(`[L11] every leaf of every tree up to ${MOST} leaves is proven, and no damaged proof is accepted`, () => {
  let refused = 0
  for (let size = 1; size <= MOST; size++) {
    const subtree = subtrees(LEAVES.slice(0, size), sha256)
    for (let index = 0; index < size; index++) {
      const claim = {
        index,
        size,
        leafHash: LEAVES[index]!,
        root: ROOTS[size]!,
        path: inclusionProof(index, size, subtree),
      }
      expect(verifyInclusion(claim, sha256), `${index} of ${size}`).toBe(true)
      const damaged = [
        ...damagedPaths(claim.path).map((path) => ({ ...claim, path })),
        { ...claim, leafHash: flipped(claim.leafHash) },
        { ...claim, root: flipped(claim.root) },
        { ...claim, index: size },
        { ...claim, index: -1 },
        { ...claim, size: 0 },
        ...(size > 1 ? [{ ...claim, index: (index + 1) % size }] : []),
      ]
      for (const bad of damaged) expect(verifyInclusion(bad, sha256), `${index} of ${size}`).toBe(false)
      refused += damaged.length
    }
  }
  expect(refused).toBeGreaterThan(20_000)
})

test(`[L11] every tree up to ${MOST} leaves is proven to extend each before it, and no damaged proof is accepted`, () => {
  for (let newSize = 1; newSize <= MOST; newSize++) {
    const subtree = subtrees(LEAVES.slice(0, newSize), sha256)
    for (let oldSize = 0; oldSize <= newSize; oldSize++) {
      const path = consistencyProof(oldSize, newSize, subtree)
      const claim = { oldSize, oldRoot: ROOTS[oldSize]!, newSize, newRoot: ROOTS[newSize]!, path }
      expect(verifyConsistency(claim, sha256), `${oldSize} to ${newSize}`).toBe(true)
      const damaged = [
        ...damagedPaths(path).map((bad) => ({ ...claim, path: bad })),
        { ...claim, oldRoot: flipped(claim.oldRoot) },
        ...(oldSize > 0 ? [{ ...claim, newRoot: flipped(claim.newRoot) }] : []),
        { ...claim, oldSize: newSize + 1 },
        ...(oldSize > 0 && oldSize < newSize ? [{ ...claim, oldSize: oldSize + 1 }] : []),
      ]
      for (const bad of damaged)
        expect(verifyConsistency(bad, sha256) && !sameClaim(bad, claim), `${oldSize} to ${newSize}`).toBe(
          false,
        )
    }
  }
})

/** Swapping two equal hashes damages nothing. */
const sameClaim = (a: { path: readonly Uint8Array[] }, b: { path: readonly Uint8Array[] }): boolean =>
  JSON.stringify(a) === JSON.stringify(b)
