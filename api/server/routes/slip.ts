import { slipQuery } from '../../contract/messages/slip.ts'
import { readDeviceOrigin } from '../../domain/log/device-log.ts'
import { equalBytes } from '../../domain/log/encoding.ts'
import { writeVerifierKey } from '../../domain/log/note.ts'
import { consistencyProof, subtrees } from '../../domain/log/proof.ts'
import { readTreeHead, writeConsistency } from '../../domain/log/proof-file.ts'
import { slipWords, writeSlip } from '../../domain/log/slip.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../domain/log/tree.ts'
import { problem } from '../middleware/problem.ts'
import { type Handler, known } from './route.ts'

/**
 * Public by design: whoever holds a slip may ask whether the log still extends it, and gets proofs alone. Whoever does
 * not hold a tree's root learns nothing, not even that a company is here.
 */
export const slip: Handler = async (c, { world }) => {
  const query = slipQuery.safeParse(c.req.query())
  const head = query.success ? readTreeHead(query.data.size, query.data.root) : undefined
  if (!query.success || !head) return problem(c, 'request-malformed', { at: query.success ? '/root' : '' })
  const { origin } = query.data
  const company = readDeviceOrigin(`${origin}/00000000-0000-0000-0000-000000000000/1`)?.company.split('/')[1]
  const row = company ? await world.store.company(company) : undefined
  const newest = row?.origin === origin ? await world.store.newestCheckpoint(row.company) : undefined
  if (!row || !newest || head.size === 0 || head.size > newest.size) return problem(c, 'not-found')
  const hashes = await world.store.leafHashes(row.company, newest.size)
  const then = rootOf(appendAll(EMPTY_FRONTIER, hashes.slice(0, head.size), world.sha256), world.sha256)
  if (!equalBytes(then, head.root)) return problem(c, 'not-found')
  const path = consistencyProof(head.size, newest.size, subtrees(hashes, world.sha256))
  return c.json({
    checkpoint: newest.note,
    logKey: writeVerifierKey(world.keysOf(origin).log.noteKey, world.sha256),
    consistency: writeConsistency({ old: head, new: { size: newest.size, root: newest.root }, path }),
  })
}

/** A job's slip as of the newest checkpoint. */
export const jobSlip: Handler = known(async (c, { world }, asker) => {
  const job = c.req.param('job') ?? ''
  if (job === asker.company) return problem(c, 'not-found')
  const newest = await world.store.newestCheckpoint(asker.company)
  const leaves = newest ? await world.store.thread(asker.company, job, newest.size) : []
  const last = leaves.at(-1)
  if (!newest || !last) return problem(c, 'not-found')
  const made = {
    origin: asker.origin,
    head: { size: newest.size, root: newest.root },
    count: last.count,
    last: last.leafHash,
  }
  return c.json({ slip: writeSlip(made), words: slipWords(made, world.sha256) })
})
