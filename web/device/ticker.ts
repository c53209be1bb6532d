import { inTurn } from './tabs.ts'

export type Ticker = {
  /** Syncs now, or once more right after the sync that is under way. */
  ask(): void
}

/** How often to sync without being asked: at once while something waits here, seldom while news comes by itself. */
export type Pace = () => keyof typeof PACES
const PACES = { 'at-once': 4_000, soon: 15_000, seldom: 120_000 } as const
/** A round on a slow network may take minutes; a tab that was put away may hold its turn for ever. */
const TURN_MS = 60_000
const STEP_MS = 2_000

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
      await inTurn('screedbook-sync', round, TURN_MS).catch((error: unknown) => console.error('sync', error))
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
    const due = performance.now() - lastEnd >= PACES[pace()]
    if (due && document.visibilityState === 'visible') ask()
  }, STEP_MS)
  return { ask }
}
