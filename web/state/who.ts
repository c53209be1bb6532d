import { createSignal, onCleanup } from 'solid-js'
import type { By } from '../../api/domain/entry/envelope.ts'
import type { Identity } from '../sync/kept.ts'

/** Without a touch for so long, whoever holds a shared phone may be another: the name is asked again. Source: our choice. */
export const IDLE_MS = 10 * 60_000

export type WhoState = {
  /** Whether this phone is shared, so that each entry names whom somebody tapped. */
  readonly isShared: () => boolean
  /** The person who was picked and is still counted on; on a phone of one's own that person. */
  readonly person: () => string | undefined
  /** Whether the question is open. */
  readonly isAsking: () => boolean
  /** Opens the question, also where somebody is picked. */
  ask(): void
  pick(person: string): void
  /** Leaves the question without an answer: nothing that waits for one is logged. */
  leave(): void
  /** Who makes the next entry, asked where nobody is picked; undefined where the question was left. */
  maker(): Promise<By | undefined>
}

/** Who holds the phone. Kept in memory alone: whoever opens the app anew is asked anew. */
export const createWho = (
  identity: () => Identity | undefined,
  clock: { readonly now: () => number; readonly mono: () => number },
): WhoState => {
  const [picked, setPicked] = createSignal<string>()
  const [isAsking, setAsking] = createSignal(false)
  // Of both clocks: one may be set, and the other may rest while the phone sleeps.
  const moment = () => ({ now: clock.now(), mono: clock.mono() })
  let touched = moment()
  let waiting: ((person: string | undefined) => void)[] = []
  const isShared = () => identity()?.use === 'shared'
  const person = () => (isShared() ? picked() : identity()?.person)
  const isIdle = (): boolean => {
    const { now, mono } = moment()
    return Math.max(mono - touched.mono, Math.abs(now - touched.now)) >= IDLE_MS
  }
  const forget = (): void => {
    if (picked() === undefined || !isIdle()) return
    setPicked(undefined)
    setAsking(true)
  }
  // Before the touch itself is taken: a tap after the idle time must find nobody picked.
  const onTouch = (): void => {
    forget()
    touched = moment()
  }
  for (const kind of ['pointerdown', 'keydown']) addEventListener(kind, onTouch, { capture: true })
  const timer = setInterval(forget, 5_000)
  onCleanup(() => {
    for (const kind of ['pointerdown', 'keydown']) removeEventListener(kind, onTouch, { capture: true })
    clearInterval(timer)
  })
  const answer = (by: string | undefined): void => {
    const all = waiting
    waiting = []
    setAsking(false)
    for (const done of all) done(by)
  }
  const asked = (): Promise<string | undefined> =>
    new Promise((done) => {
      waiting.push(done)
      setAsking(true)
    })
  return {
    isShared,
    person,
    isAsking,
    ask: () => setAsking(true),
    pick: (by) => {
      touched = moment()
      setPicked(by)
      answer(by)
    },
    leave: () => answer(undefined),
    maker: async () => {
      const is = identity()
      if (!is) return undefined
      if (is.use !== 'shared') return { known: 'own-device', person: is.person }
      forget()
      const by = picked() ?? (await asked())
      return by === undefined ? undefined : { known: 'picked', person: by }
    },
  }
}
