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
 * the others hear of what it pulled. Only a tab in view leads: one in the background, or put away to come back on
 * "back", may be frozen with the stream in its hands. Polling by the ticker goes on either way.
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
  const lead = async (): Promise<void> => {
    if (!inView()) return
    leads = true
    const gone = leaving()
    // The tab that led may have been closed at any time: a sync catches up, and opens the stream after it.
    onGrown()
    await gone
    leads = false
    stream?.close()
    stream = undefined
  }
  const stand = (): void => {
    if (inView()) void inTurn('screedbook-live', lead)
  }
  document.addEventListener('visibilitychange', stand)
  addEventListener('pageshow', (event: Event) => {
    if ('persisted' in event && event.persisted) stand()
  })
  stand()
  // A tab that does not lead can't know whether the one that does still lives: it polls, if less often.
  return { isOpen: () => stream?.readyState === EventSource.OPEN, reopen }
}

const inView = (): boolean => document.visibilityState === 'visible'

/** Until this tab is out of view or left. */
const leaving = (): Promise<void> =>
  new Promise((resolve) => {
    addEventListener('pagehide', () => resolve(), { once: true })
    const onHide = (): void => {
      if (inView()) return
      document.removeEventListener('visibilitychange', onHide)
      resolve()
    }
    document.addEventListener('visibilitychange', onHide)
  })
