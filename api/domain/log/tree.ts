import type { Sha256 } from '../world.ts'
import { hashNode } from './leaf.ts'

/**
 * All that is needed to append to a tree: its size and the roots of its perfect subtrees, largest first
 * (one for each bit set in the size).
 */
export type Frontier = { readonly size: number; readonly peaks: readonly Uint8Array[] }

export const EMPTY_FRONTIER: Frontier = { size: 0, peaks: [] }

/** The frontier after one more leaf hash. */
export const append = (frontier: Frontier, leafHash: Uint8Array, sha256: Sha256): Frontier => {
  const peaks = [...frontier.peaks]
  let node = leafHash
  // Each trailing 1 bit of the size is a perfect subtree that the new leaf completes.
  for (let size = frontier.size; size % 2 === 1; size = (size - 1) / 2)
    node = hashNode(peaks.pop()!, node, sha256)
  peaks.push(node)
  return { size: frontier.size + 1, peaks }
}

export const appendAll = (frontier: Frontier, leafHashes: Iterable<Uint8Array>, sha256: Sha256): Frontier => {
  let next = frontier
  for (const leafHash of leafHashes) next = append(next, leafHash, sha256)
  return next
}

/** RFC 6962 §2.1: the Merkle tree hash. Of nothing, SHA-256(""). */
export const rootOf = (frontier: Frontier, sha256: Sha256): Uint8Array => {
  const last = frontier.peaks.at(-1)
  if (!last) return sha256(new Uint8Array())
  let root = last
  for (let i = frontier.peaks.length - 2; i >= 0; i--) root = hashNode(frontier.peaks[i]!, root, sha256)
  return root
}

/** Whether a frontier's parts fit together: as many peaks as its size has bits set, 32 bytes each. */
export const isFrontier = (frontier: Frontier): boolean =>
  Number.isSafeInteger(frontier.size) &&
  frontier.size >= 0 &&
  [...frontier.size.toString(2)].filter((bit) => bit === '1').length === frontier.peaks.length &&
  frontier.peaks.every((peak) => peak.length === 32)
