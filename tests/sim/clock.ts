import type { Chance } from '../kit/chance.ts'

/** A device's clocks: the one on the wall may be off by days, jump, and step back; the other counts since the start. */
export type DeviceClock = {
  now(): number
  mono(): number
  localTime(): string
  /** Somebody sets the clock, or the phone does so by itself. */
  jump(): void
  /** A new run of the program: its monotonic count begins anew. */
  reboot(): void
}

const DAY = 86_400_000
const OFFSET = 5 * 3_600_000

export const createDeviceClock = (time: () => number, chance: Chance): DeviceClock => {
  let off = chance.chance(0.3) ? (chance.below(9) - 4) * DAY + chance.below(DAY) : chance.below(4_000) - 2_000
  let started = time()
  const now = () => time() + off
  return {
    now,
    mono: () => time() - started,
    localTime: () => `${new Date(now() - OFFSET).toISOString().slice(0, 23)}-05:00`,
    jump: () => {
      off = chance.chance(0.5) ? chance.below(3_600_000) - 1_800_000 : (chance.below(7) - 3) * DAY
    },
    reboot: () => {
      started = time()
    },
  }
}
