import { joinBytes, toUtf8 } from '../api/domain/log/encoding.ts'
import type { RandomBytes } from '../api/domain/world.ts'
import { sha256 } from '../api/server/senses.ts'

/**
 * The same bytes for the same seed, so that a job that is built twice has the same ids, keys and entries. Nothing that it
 * gives is secret: whoever reads the seed knows it too. SHA-256 of seed and counter, block after block.
 */
export const seededBytes = (seed: string): RandomBytes => {
  let counter = 0
  let left = new Uint8Array()
  return (length) => {
    while (left.length < length)
      left = joinBytes(left, sha256(toUtf8(`${seed}\n${counter++}`))) as typeof left
    const given = left.slice(0, length)
    left = left.slice(length)
    return given
  }
}
