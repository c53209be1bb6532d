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

/** Runs `work` while no other tab runs it under the same name. Where the browser has no locks, at once. */
export const inTurn = async <T>(name: string, work: () => Promise<T>): Promise<T> =>
  // A page without TLS has no locks; each step of a sync holds by itself, so two at once only waste requests.
  navigator.locks ? ((await navigator.locks.request(name, work)) as T) : work()
