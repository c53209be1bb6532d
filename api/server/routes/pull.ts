import { MAX_PULL, type PullAnswer } from '../../contract/messages/pull.ts'
import { readSize } from '../../domain/log/checkpoint.ts'
import { readUtf8, toBase64 } from '../../domain/log/encoding.ts'
import { problem } from '../middleware/problem.ts'
import { known } from './route.ts'

export const pull = known(async (c, { world }, asker) => {
  const from = readSize(c.req.query('from') ?? '')
  const limit = readSize(c.req.query('limit') ?? String(MAX_PULL))
  if (from === undefined || limit === undefined || limit === 0)
    return problem(c, 'request-malformed', { at: from === undefined ? '/from' : '/limit' })
  const page = await world.store.page(asker.company, from, Math.min(limit, MAX_PULL))
  const newest = await world.store.newestCheckpoint(asker.company)
  // A log that is shorter than what the phone has verified still shows its own end: the phone then has the contradiction.
  const checkpoint = page.checkpoint ?? newest
  const end = page.leaves.length > 0 ? from + page.leaves.length : from
  const answer: PullAnswer = {
    from,
    leaves: page.leaves.map((row) => ({
      leaf: toBase64(row.leaf),
      entry: row.bytes ? (readUtf8(row.bytes) ?? null) : null,
    })),
    checkpoint: checkpoint?.note ?? null,
    more: newest !== undefined && newest.size > end,
    serverTime: world.now(),
  }
  return c.json(answer)
})
