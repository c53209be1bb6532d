/** Tells this app's other tabs that the phone's storage has changed, and hears it from them. */
export type Tabs = { announce(): void; onNews(listener: () => void): void }

const CHANNEL = 'screedbook'

export const makeTabs = (): Tabs => {
  const listeners: (() => void)[] = []
  const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(CHANNEL)
  channel?.addEventListener('message', () => {
    for (const listener of listeners) listener()
  })
  return {
    announce: () => channel?.postMessage('written'),
    onNews: (listener) => {
      listeners.push(listener)
    },
  }
}

/**
 * Runs `work` while no other tab runs it under the same name. Where the browser has no locks, or another tab was put
 * away with the lock in its hands and time is up, at once: each step of a sync holds by itself, so two at once only
 * waste requests.
 */
export const inTurn = async <T>(name: string, work: () => Promise<T>, patienceMs?: number): Promise<T> => {
  // A page without TLS has none.
  if (!navigator.locks) return work()
  let granted = false
  const mine = () => {
    granted = true
    return work()
  }
  try {
    const options = patienceMs === undefined ? {} : { signal: AbortSignal.timeout(patienceMs) }
    return (await navigator.locks.request(name, options, mine)) as T
  } catch (error) {
    if (granted) throw error
    return work()
  }
}
