import { readHex, toHex } from '../../api/domain/log/encoding.ts'
import { hashLeaf, type Leaf, readLeaf, writeLeaf } from '../../api/domain/log/leaf.ts'
import { sha256 } from '../../api/server/senses.ts'
import { type Files, setText, textOf } from './record-kit.ts'
import { addLeaf, type ScriptedLog, signCheckpoint } from './scripted-log.ts'

export const leavesOf = (files: Files): Leaf[] =>
  textOf(files, 'thread.txt')
    .trimEnd()
    .split('\n')
    .map((line) => {
      const leaf = readLeaf(readHex(line)!)
      if (!leaf.ok) throw new Error('the good thread is out of form')
      return leaf.value
    })

/** Writes the thread anew, each leaf naming the one before it, so that only what lies outside it can tell. */
export const relink = (files: Files, leaves: readonly Leaf[]): void => {
  let previous: Uint8Array = new Uint8Array(32)
  const lines = leaves.map((leaf) => {
    const bytes = writeLeaf({ ...leaf, previous })
    previous = hashLeaf(bytes, sha256)
    return `${toHex(bytes)}\n`
  })
  setText(files, 'thread.txt', () => lines.join(''))
}

/**
 * The log as a forger makes it who holds the log's key and the database: one entry taken out, every leaf after it
 * numbered, linked and placed anew, every checkpoint signed anew. What the phones have signed he can't make.
 */
export const withoutEntry = async (log: ScriptedLog, entryHash: string): Promise<ScriptedLog> => {
  const at = log.leaves.findIndex((leaf) => leaf.entryHash === entryHash)
  if (at < 0) throw new Error('there is no such entry to take out')
  const forged: ScriptedLog = {
    ...log,
    leaves: [],
    checkpoints: [],
    heads: log.heads.map((head) => ({ ...head, atSize: head.atSize > at ? head.atSize - 1 : head.atSize })),
  }
  for (const leaf of log.leaves)
    if (leaf.entryHash !== entryHash) addLeaf(forged, leaf.bytes!, leaf.receivedAt)
  const sizes = new Set(log.checkpoints.flatMap(({ size }) => [size, size > at ? size - 1 : size]))
  for (const size of [...sizes].filter((s) => s <= forged.leaves.length).sort((a, b) => a - b))
    forged.checkpoints.push(await signCheckpoint(forged, size))
  return forged
}
