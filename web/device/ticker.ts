import { inTurn } from './tabs.ts'

export type Ticker = {
  /** Syncs now, or once more right after the sync that is under way. */
  ask(): void
}

/** How often to sync without being asked: soon while something waits here, seldom while news comes by itself. */
export type Pace = () => 'soon' | 'seldom'
const SOON_MS = 15_000
const SELDOM_MS = 120_000

/**
 * Runs rounds one at a time in this tab, and in turn with other tabs: on opening, on coming back into view, on network,
 * when asked, and by the clock. Only Chromium could sync in the background, so we count on none of it.
 */
export const makeTicker = (round: () => Promise<void>, pace: Pace): Ticker => {
  let running = false
  let again = false
  let lastEnd = 0
  const run = async (): Promise<void> => {
    if (running) {
      again = true
      return
    }
    running = true
    do {
      again = false
      await inTurn('screedbook-sync', round).catch((error: unknown) => console.error('sync', error))
    } while (again)
    running = false
    lastEnd = performance.now()
  }
  const ask = (): void => {
    void run()
  }
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') ask()
  })
  addEventListener('online', ask)
  setInterval(() => {
    const due = performance.now() - lastEnd >= (pace() === 'soon' ? SOON_MS : SELDOM_MS)
    if (due && document.visibilityState === 'visible') ask()
  }, 5_000)
  return { ask }
}
