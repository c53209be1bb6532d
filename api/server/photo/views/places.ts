export type Place<T> = {
  readonly done: Promise<T>
  /** Somebody waits for it now: goes ahead of those that nobody waits for. */
  hurry(): void
}

/** Works that wait for one of a few places. */
export type Places = {
  /** Runs the work in its turn. Undefined where too many wait already. */
  take<T>(work: () => Promise<T>, line: 'ahead' | 'behind'): Place<T> | undefined
}

/** A queue with an end: what doesn't fit is turned away, and nothing grows with what is sent. */
export const createPlaces = (places: number, most: number): Places => {
  const lines = { ahead: [] as (() => void)[], behind: [] as (() => void)[] }
  let busy = 0
  const next = (): void => {
    if (busy >= places) return
    const start = lines.ahead.shift() ?? lines.behind.shift()
    if (!start) return
    busy++
    start()
  }
  return {
    take: <T>(work: () => Promise<T>, line: 'ahead' | 'behind') => {
      if (lines[line].length >= most) return undefined
      let start = (): void => {}
      const done = new Promise<T>((resolve, reject) => {
        start = () => {
          work()
            .then(resolve, reject)
            .finally(() => {
              busy--
              next()
            })
        }
      })
      lines[line].push(start)
      next()
      return {
        done,
        hurry: () => {
          const at = lines.behind.indexOf(start)
          if (at >= 0) lines.ahead.push(...lines.behind.splice(at, 1))
        },
      }
    },
  }
}
