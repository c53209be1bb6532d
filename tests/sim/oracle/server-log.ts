import { hashEntry } from '../../../api/domain/entry/read.ts'
import { readCheckpoint } from '../../../api/domain/log/checkpoint.ts'
import { equalBytes, readUtf8, toBase64, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { hashLeaf } from '../../../api/domain/log/leaf.ts'
import { openNote, readVerifierKey } from '../../../api/domain/log/note.ts'
import { checkThread } from '../../../api/domain/log/thread.ts'
import { append, EMPTY_FRONTIER, rootOf } from '../../../api/domain/log/tree.ts'
import { sha256 } from '../../../api/server/senses.ts'
import type { LeafRow } from '../../../db/log-store/log-store.ts'
import { getMeta } from '../../../web/sync/kept.ts'
import type { Simulated } from '../simulate.ts'
import type { Say } from './oracle.ts'

/** The final log, and what is looked up in it again and again. */
export type ServerLog = {
  readonly leaves: readonly LeafRow[]
  readonly byHash: ReadonlyMap<string, LeafRow>
  /** Root (base64) of each size from 0 on. */
  readonly roots: readonly string[]
  /** Hashes of bytes whose refusal the server has noted. */
  readonly refused: ReadonlySet<string>
}

export const readServerLog = async (run: Simulated, say: Say): Promise<ServerLog> => {
  const { log } = run.server.stores
  const { company } = run.site
  const size = (await log.company(company))!.frontier.size
  const leaves: LeafRow[] = []
  while (leaves.length < size) {
    const page = await log.page(company, leaves.length, 500)
    if (page.leaves.length === 0) break
    leaves.push(...page.leaves)
  }
  if (leaves.length !== size) say(`the log says ${size} leaves and holds ${leaves.length}`)
  const roots = [toBase64(rootOf(EMPTY_FRONTIER, sha256))]
  let frontier = EMPTY_FRONTIER
  for (const leaf of leaves) {
    frontier = append(frontier, leaf.leafHash, sha256)
    roots.push(toBase64(rootOf(frontier, sha256)))
  }
  const refused = leaves.flatMap((leaf) => (leaf.kind === 'entry.refused' ? [bodyOf(leaf).hash ?? ''] : []))
  return {
    leaves,
    byHash: new Map(leaves.map((leaf) => [leaf.entryHash, leaf])),
    roots,
    refused: new Set(refused),
  }
}

type Body = { readonly hash?: string; readonly photo?: string; readonly device?: string }
export const bodyOf = (leaf: LeafRow): Body =>
  (JSON.parse(readUtf8(leaf.bytes!)!) as { readonly body: Body }).body

/** The log by itself: every leaf is what it is called, once; every thread goes on; every signed size is on the tree. */
export const checkServerLog = async (run: Simulated, log: ServerLog, say: Say): Promise<void> => {
  const { leaves, byHash } = log
  if (byHash.size !== leaves.length) say('an entry stands twice in the log')
  if (new Set(leaves.map((leaf) => leaf.id)).size !== leaves.length) say('an id stands twice in the log')
  const threads = new Map<string, Uint8Array[]>()
  for (const [i, leaf] of leaves.entries()) {
    if (leaf.position !== i) say(`position ${i} holds the leaf of position ${leaf.position}`)
    if (!leaf.bytes || hashEntry(leaf.bytes, sha256) !== leaf.entryHash) say(`an entry at ${i} was altered`)
    if (!equalBytes(hashLeaf(leaf.leaf, sha256), leaf.leafHash)) say(`the leaf at ${i} has another hash`)
    if (toHex(leaf.leaf.slice(65)) !== leaf.entryHash) say(`the leaf at ${i} is of another entry`)
    threads.set(leaf.job, [...(threads.get(leaf.job) ?? []), leaf.leaf])
  }
  for (const [job, thread] of threads)
    for (const finding of checkThread(thread, sha256).findings)
      say(`${finding.code} in the thread of ${job} at ${finding.count}`)
  checkStopped(run, say)
  checkWithdrawn(log, say)
  await checkSigned(run, log, say)
  checkServersOwn(log, say)
}

/** A log that has stopped takes nothing more. */
const checkStopped = ({ server, site }: Simulated, say: Say): void => {
  const rows = server.written.filter((row) => row.company === site.company)
  const at = rows.findIndex(({ rows }) => rows.stopped !== undefined)
  if (at >= 0 && rows.slice(at + 1).some(({ rows }) => rows.leaves.length > 0))
    say('the log went on after it had stopped')
}

/** What a device sent after it was withdrawn stands nowhere in the log. */
const checkWithdrawn = ({ leaves }: ServerLog, say: Say): void => {
  const withdrawn = new Set<string>()
  for (const leaf of leaves) {
    if (withdrawn.has(leaf.device)) say('an entry of a withdrawn device is in the log')
    if (leaf.kind === 'device.withdrawn') withdrawn.add(bodyOf(leaf).device!)
  }
}

/** Every checkpoint that the log keeps is signed by its key, and its root is the tree's. */
const checkSigned = async (run: Simulated, { roots }: ServerLog, say: Say): Promise<void> => {
  const owner = run.phones[0]!
  const identity = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  const key = readVerifierKey(identity.logKey, sha256)
  if (!key.ok) return say('the log’s key can’t be read')
  for (const [size, root] of roots.entries()) {
    const row = await run.server.stores.log.checkpointAt(run.site.company, size)
    if (!row && size === roots.length - 1) say('the newest size was never signed')
    if (!row) continue
    const text = await openNote(toUtf8(row.note), [key.value], owner.phone)
    const signed = text.ok ? readCheckpoint(text.value) : text
    if (!signed.ok) say(`the checkpoint of size ${size} is not signed by the log`)
    else if (signed.value.size !== size || toBase64(signed.value.root) !== root)
      say(`the checkpoint of size ${size} is off the tree`)
    if (toBase64(row.root) !== root) say(`the kept root of size ${size} is off the tree`)
  }
}

/** What the server says by itself, it says once, and never that it refused what it holds. */
const checkServersOwn = ({ leaves, byHash }: ServerLog, say: Say): void => {
  const said = new Set<string>()
  for (const leaf of leaves) {
    if (leaf.kind !== 'entry.refused' && leaf.kind !== 'photo.received') continue
    const { hash, photo } = bodyOf(leaf)
    const about = `${leaf.kind} ${leaf.job} ${hash ?? photo}`
    if (said.has(about)) say(`the server said twice: ${about}`)
    said.add(about)
    if (hash !== undefined && byHash.has(hash)) say(`the server noted as refused what it holds: ${hash}`)
  }
}
