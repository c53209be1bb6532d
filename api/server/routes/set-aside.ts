import { MAX_SET_ASIDE } from '../../contract/messages/set-aside.ts'
import { readSize } from '../../domain/log/checkpoint.ts'
import { readUtf8 } from '../../domain/log/encoding.ts'
import { problem } from '../middleware/problem.ts'
import { known } from './route.ts'

/** What was set aside of one device, for an owner to read before deciding. */
export const setAside = known(async (c, { world, sequencer }, asker) => {
  const device = c.req.param('device') ?? ''
  const from = readSize(c.req.query('from') ?? '0')
  if (from === undefined) return problem(c, 'request-malformed', { at: '/from' })
  const { members, quarantine } = await sequencer.state(asker.company)
  if (!members.devices.has(device)) return problem(c, 'not-found')
  const rows = await world.store.setAside(asker.company, device)
  const page = rows.slice(from, from + MAX_SET_ASIDE)
  return c.json({
    entries: page.map(({ entryHash, bytes, receivedAt }) => ({
      hash: entryHash,
      // It came as text, in JSON.
      entry: readUtf8(bytes)!,
      receivedAt,
      is: quarantine.get(entryHash)?.is ?? 'waiting',
    })),
    more: rows.length > from + page.length,
  })
})
