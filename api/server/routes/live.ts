import { streamSSE } from 'hono/streaming'
import { LIVE_ALIVE, LIVE_ALIVE_MS, LIVE_EVENT } from '../../contract/messages/live.ts'
import { known } from './route.ts'

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
      // Also while nothing grows: proxies and sleeping radios close what is only quiet, and a phone hears that it is heard.
      const event = grown ? LIVE_EVENT : LIVE_ALIVE
      grown = false
      const size = (await world.store.company(asker.company))?.frontier.size ?? 0
      await stream.writeSSE({ event, data: String(size) })
      if (!grown && !stream.aborted)
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, LIVE_ALIVE_MS)
          wake = () => {
            clearTimeout(timer)
            resolve()
          }
        })
    }
    stop()
  }),
)
