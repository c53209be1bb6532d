import { streamSSE } from 'hono/streaming'
import { LIVE_EVENT } from '../../contract/messages/live.ts'
import { known } from './route.ts'

/** A line now and then, so that proxies and sleeping radios don't close what is only quiet. */
const KEEP_ALIVE_MS = 25_000

export const live = known((c, { world, live: news }, asker) =>
  streamSSE(c, async (stream) => {
    let wake = () => {}
    let grown = true
    const stop = news.listen(asker.company, () => {
      grown = true
      wake()
    })
    stream.onAbort(() => {
      stop()
      wake()
    })
    while (!stream.aborted) {
      if (grown) {
        grown = false
        const size = (await world.store.company(asker.company))?.frontier.size ?? 0
        await stream.writeSSE({ event: LIVE_EVENT, data: String(size) })
      } else await stream.write(': \n\n')
      if (!grown && !stream.aborted)
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, KEEP_ALIVE_MS)
          wake = () => {
            clearTimeout(timer)
            resolve()
          }
        })
    }
    stop()
  }),
)
