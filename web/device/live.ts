import { LIVE_EVENT } from '../../api/contract/messages/live.ts'
import { inTurn } from './tabs.ts'

export type Live = {
  /** Whether news comes by itself at the moment, to this tab or to another that passes it on. */
  readonly isOpen: () => boolean
  /** Opens the stream if it was closed: after a sync, since that has signed in. */
  reopen(): void
}

/**
 * Listens for "the log has grown". One tab alone holds the stream, since a browser allows six connections to a server;
 * the others hear of what it pulled. Only a tab that is in view leads: one in the background may be frozen with the
 * stream in its hands. Polling by the ticker goes on either way: a stream may die without a word.
 */
export const makeLive = (onGrown: () => void): Live => {
  let stream: EventSource | undefined
  let leads = false
  let resign = (): void => {}
  const reopen = (): void => {
    if (!leads || (stream && stream.readyState !== EventSource.CLOSED)) return
    stream = new EventSource('/api/live')
    stream.addEventListener(LIVE_EVENT, onGrown)
    // After a gap, what was missed while it lasted.
    stream.addEventListener('open', onGrown)
  }
  const lead = async (): Promise<void> => {
    if (document.visibilityState !== 'visible') return
    leads = true
    const untilHidden = new Promise<void>((done) => {
      resign = done
    })
    // The tab that led may have been closed at any time: a sync catches up, and opens the stream after it.
    onGrown()
    await untilHidden
    leads = false
    stream?.close()
    stream = undefined
  }
  const stand = (): void => {
    if (document.visibilityState === 'visible') void inTurn('screedbook-live', lead)
    else resign()
  }
  document.addEventListener('visibilitychange', stand)
  stand()
  // A tab that does not lead can't know whether the one that does still lives: it polls, if less often.
  return { isOpen: () => stream?.readyState === EventSource.OPEN, reopen }
}
