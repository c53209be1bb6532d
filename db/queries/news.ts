import { openClient, type Target } from '../connect/target.ts'

/** The channel on which each commit of a log says its company's id. */
export const NEWS = 'screedbook_commit'

/**
 * News of commits, by LISTEN on a connection of its own, opened with the first listener and closed with the last. The
 * driver listens again after a lost connection; what was said meanwhile is gone, so each company is then named once.
 */
export const createNews = (target: Target, companies: () => Promise<string[]>) => {
  const listeners = new Set<(company: string) => void>()
  let closing: Promise<() => Promise<void>> | undefined

  const tell = (company: string) => {
    for (const listener of listeners) listener(company)
  }
  const open = async () => {
    const client = openClient(target, { max: 1 })
    let heardBefore = false
    const onListen = () => {
      if (heardBefore)
        companies().then(
          (all) => all.forEach(tell),
          () => {},
        )
      heardBefore = true
    }
    await client.listen(NEWS, tell, onListen)
    return () => client.end({ timeout: 1 })
  }
  const close = async () => {
    const close = await closing
    closing = undefined
    await close?.()
  }

  return {
    onCommit: async (listener: (company: string) => void) => {
      // A wrapper each, so that one function may listen twice.
      const mine = (company: string) => listener(company)
      listeners.add(mine)
      closing ??= open()
      await closing
      return async () => {
        listeners.delete(mine)
        if (listeners.size === 0) await close()
      }
    },
    end: async () => {
      listeners.clear()
      await close()
    },
  }
}
