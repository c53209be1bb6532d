import { LIVE_ALIVE, LIVE_EVENT, LIVE_QUIET_MS } from '../../api/contract/messages/live.ts'
import { inTurn } from './tabs.ts'

export type Live = {
  /**
   * Whether this tab itself gets news as it comes: by what it heard, since a proxy may open a stream and hold back what is
   * in it. A tab that gets none asks now and then, whatever other tabs do.
   */
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
  let heardAt = Number.NEGATIVE_INFINITY
  const heard = (): void => {
    heardAt = performance.now()
  }
  const reopen = (): void => {
    if (!leads || (stream && stream.readyState !== EventSource.CLOSED)) return
    stream = new EventSource('/api/live')
    heardAt = Number.NEGATIVE_INFINITY
    stream.addEventListener(LIVE_ALIVE, heard)
    stream.addEventListener(LIVE_EVENT, () => {
      heard()
      onGrown()
    })
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
  const isOpen = (): boolean =>
    stream?.readyState === EventSource.OPEN && performance.now() - heardAt < LIVE_QUIET_MS
  return { isOpen, reopen }
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
