import type { LogStore } from '../../../db/log-store/log-store.ts'

/** Tells whoever listens that a company's log has grown, in this process or another. */
export type Live = {
  listen(company: string, listener: () => void): () => void
  close(): Promise<void>
}

export const createLive = async (store: LogStore): Promise<Live> => {
  const listeners = new Map<string, Set<() => void>>()
  const stop = await store.onCommit((company) => {
    for (const listener of listeners.get(company) ?? []) listener()
  })
  return {
    listen: (company, listener) => {
      const mine = listeners.get(company) ?? new Set()
      listeners.set(company, mine)
      mine.add(listener)
      return () => {
        mine.delete(listener)
        if (mine.size === 0) listeners.delete(company)
      }
    },
    close: stop,
  }
}
