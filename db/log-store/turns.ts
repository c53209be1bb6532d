/**
 * One at a time for each key, in order of asking; different keys don't wait for each other. No timers, so that the
 * simulator's order of events depends on its seed alone.
 */
export const createTurns = () => {
  const last = new Map<string, Promise<void>>()
  return async <T>(key: string, work: () => Promise<T>): Promise<T> => {
    const before = last.get(key)
    let end = () => {}
    const mine = new Promise<void>((resolve) => {
      end = resolve
    })
    last.set(key, mine)
    await before
    try {
      return await work()
    } finally {
      if (last.get(key) === mine) last.delete(key)
      end()
    }
  }
}
