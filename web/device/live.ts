import { LIVE_EVENT } from '../../api/contract/messages/live.ts'
import { inTurn } from './tabs.ts'

export type Live = {
  /** Whether this tab itself gets news as it comes. One that does not asks now and then, whatever other tabs do. */
  readonly isOpen: () => boolean
  /** Opens the stream if it was closed: after a sync, since that has signed in. */
  reopen(): void
}

/**
 * Listens for "the log has grown". One tab alone holds the stream, since a browser allows six connections to a server;
 * the others hear of what it pulled. Polling by the ticker goes on either way: a stream may die without a word.
 */
export const makeLive = (onGrown: () => void): Live => {
  let stream: EventSource | undefined
  let leads = false
  const reopen = (): void => {
    if (!leads || (stream && stream.readyState !== EventSource.CLOSED)) return
    stream = new EventSource('/api/live')
    stream.addEventListener(LIVE_EVENT, onGrown)
    // After a gap, what was missed while it lasted.
    stream.addEventListener('open', onGrown)
  }
  const lead = (): void => {
    void inTurn('screedbook-live', () => {
      leads = true
      // The tab that led may have been closed at any time: a sync catches up, and opens the stream after it.
      onGrown()
      return leaving().then(() => {
        leads = false
        stream?.close()
        stream = undefined
      })
    })
  }
  lead()
  // A page that is put away to come back on "back" keeps its lock, and nobody else would ever lead.
  addEventListener('pageshow', (event) => {
    if (event.persisted) lead()
  })
  return { isOpen: () => stream?.readyState === EventSource.OPEN, reopen }
}

const leaving = (): Promise<void> =>
  new Promise((resolve) => addEventListener('pagehide', () => resolve(), { once: true }))
