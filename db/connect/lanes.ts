import { type Lane, openLane } from './lane.ts'
import type { Target } from './target.ts'

/** A few lanes, opened when needed, given out first come first served. */
export type Lanes = {
  /** Gives a lane on which a READ COMMITTED transaction has begun. Its end is left to `work`. */
  transaction<T>(work: (lane: Lane) => Promise<T>): Promise<T>
  /** Runs one statement by itself. */
  statement: Lane['run']
  end(): Promise<void>
}

export const createLanes = (target: Target, most: number): Lanes => {
  const open = new Set<Lane>()
  const free: Lane[] = []
  const waiting: ((lane: Lane) => void)[] = []

  const add = (): Lane => {
    const lane = openLane(target)
    open.add(lane)
    return lane
  }
  const take = async (): Promise<Lane> => {
    for (let lane = free.pop(); lane; lane = free.pop()) {
      if (!lane.lost()) return lane
      open.delete(lane)
    }
    return open.size < most ? add() : new Promise((resolve) => waiting.push(resolve))
  }
  const giveBack = (lane: Lane) => {
    if (lane.lost()) open.delete(lane)
    const next = waiting.shift()
    if (next) next(lane.lost() ? add() : lane)
    else if (!lane.lost()) free.push(lane)
  }
  const begin = async (lane: Lane): Promise<Lane> => {
    try {
      await lane.run((client) => client.unsafe('begin isolation level read committed'))
      return lane
    } catch (cause) {
      lane.drop()
      throw cause
    }
  }

  return {
    transaction: async (work) => {
      let lane = await take()
      try {
        // A connection may have died while it lay idle. Nothing was done yet, so a second try is safe.
        await begin(lane).catch(() => {
          open.delete(lane)
          lane = add()
          return begin(lane)
        })
        return await work(lane)
      } finally {
        giveBack(lane)
      }
    },
    statement: async (statement) => {
      const lane = await take()
      try {
        return await lane.run(statement)
      } finally {
        giveBack(lane)
      }
    },
    end: async () => {
      await Promise.all([...open].map((lane) => lane.end()))
    },
  }
}
