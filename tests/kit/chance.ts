import type { RandomBytes } from '../../api/domain/world.ts'

/** A generator that gives the same numbers for the same seed, so that a run can be repeated. */
export type Chance = {
  /** In [0, 1). */
  next(): number
  /** Whole number in [0, below). */
  below(below: number): number
  chance(probability: number): boolean
  pick<T>(list: readonly T[]): T
  readonly bytes: RandomBytes
}

/** sfc32 by Chris Doty-Humphrey (PractRand, public domain), from memory; any generator of this size would do. */
export const createChance = (seed: number): Chance => {
  let a = seed >>> 0
  let b = 0x9e3779b9
  let c = 0x243f6a88
  let counter = 1
  const word = (): number => {
    const sum = (((a + b) >>> 0) + counter) >>> 0
    counter = (counter + 1) >>> 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) >>> 0
    c = ((c << 21) | (c >>> 11)) >>> 0
    c = (c + sum) >>> 0
    return sum
  }
  for (let i = 0; i < 12; i++) word()
  const next = () => word() / 2 ** 32
  return {
    next,
    below: (below) => Math.floor(next() * below),
    chance: (probability) => next() < probability,
    pick: (list) => list[Math.floor(next() * list.length)]!,
    bytes: (length) => Uint8Array.from({ length }, () => word() & 255),
  }
}
