import { createSignal } from 'solid-js'

/** What the screen stands on: pale or wet concrete, white for noon, near black before dawn. `auto` goes by the phone. */
export const GROUNDS = ['auto', 'day', 'noon', 'night', 'dawn'] as const
export type Ground = (typeof GROUNDS)[number]

const KEPT = 'screedbook-ground'
const dark = matchMedia('(prefers-color-scheme: dark)')

const keptGround = (): Ground => {
  try {
    const kept = localStorage.getItem(KEPT)
    return GROUNDS.find((ground) => ground === kept) ?? 'auto'
  } catch {
    return 'auto'
  }
}

const [ground, pick] = createSignal<Ground>(keptGround())

const lay = (): void => {
  const now = ground()
  document.documentElement.dataset.ground = now === 'auto' ? (dark.matches ? 'night' : 'day') : now
}

/** Laid before the first screen is drawn, so that nothing flashes before dawn; kept per device. */
export const layGround = (): void => {
  lay()
  dark.addEventListener('change', lay)
}

export const groundNow = ground

export const setGround = (next: Ground): void => {
  pick(next)
  lay()
  try {
    localStorage.setItem(KEPT, next)
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}
