import type { Chance } from '../kit/chance.ts'

/**
 * Lets one thing happen at a time, in an order that the seed decides. Whatever runs stops at gates; once all is quiet,
 * one gate is opened. Two runs of one seed so take the same turns.
 */
export type Turns = {
  /** Waits for its turn. */
  gate(name: string): Promise<void>
  /** Opens gates until the task is done. Throws where nothing can go on any more. */
  until<T>(task: Promise<T>): Promise<T>
  /** Opens all gates until none is left: nobody may be left waiting in what outlives the day. */
  end(): Promise<void>
  /** What was let through, in order: two runs of one seed are compared by it. */
  readonly taken: string[]
}

type Gate = { readonly name: string; readonly open: () => void }

/** Turns of the event loop without a new gate after which all is taken to be quiet: streams need a few. */
const QUIET = 3
/** A run that waits this long for a gate that never comes is stuck. */
const STUCK = 20_000

export const createTurns = (chance: Chance): Turns => {
  const gates: Gate[] = []
  const taken: string[] = []
  const breathe = () => new Promise<void>((resolve) => setImmediate(resolve))
  return {
    taken,
    gate: (name) => new Promise<void>((open) => gates.push({ name, open })),
    until: async <T>(task: Promise<T>): Promise<T> => {
      let done = false
      const finished = task.finally(() => {
        done = true
      })
      finished.catch(() => {})
      let quiet = 0
      let before = -1
      for (let idle = 0; !done; ) {
        await breathe()
        quiet = gates.length === before ? quiet + 1 : 0
        before = gates.length
        if (quiet < QUIET || done) continue
        if (gates.length === 0) {
          if (++idle > STUCK) throw new Error(`stuck after ${taken.slice(-5).join(', ')}`)
          continue
        }
        idle = 0
        const [gate] = gates.splice(chance.below(gates.length), 1)
        taken.push(gate!.name)
        gate!.open()
        before = -1
      }
      return finished
    },
    end: async () => {
      for (let quiet = 0; quiet < QUIET; quiet++) {
        await breathe()
        for (const gate of gates.splice(0)) {
          gate.open()
          quiet = 0
        }
      }
    },
  }
}
