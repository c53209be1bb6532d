import { createSignal, onCleanup } from 'solid-js'
import type { Kind } from '../../api/domain/entry/registry.ts'

/** How long a tap can be taken back by one more touch. After that it can be corrected, for ever. Source: our choice. */
export const UNDO_MS = 10_000

/** So long after a tap the next one does not take: a knuckle that bounces is one touch. Source: our choice. */
export const BOUNCE_MS = 900

/** What was tapped last and can still be undone. */
export type JustTapped = { readonly hash: string; readonly kind: Kind; readonly load: string | undefined }

export type UndoState = {
  readonly just: () => JustTapped | undefined
  /** A tap a moment ago: what is touched now may be the same touch. */
  readonly isSettling: () => boolean
  /** One tap logged this: what is touched in the next moment is not taken. */
  tapped(what: JustTapped): void
  /** A form logged this. */
  logged(what: JustTapped): void
  forget(): void
}

export const createUndo = (): UndoState => {
  const [just, setJust] = createSignal<JustTapped>()
  const [isSettling, setSettling] = createSignal(false)
  let ends: ReturnType<typeof setTimeout> | undefined
  let settles: ReturnType<typeof setTimeout> | undefined
  const clear = (): void => {
    clearTimeout(ends)
    clearTimeout(settles)
  }
  onCleanup(clear)
  const logged = (what: JustTapped): void => {
    clearTimeout(ends)
    setJust(what)
    ends = setTimeout(() => setJust(undefined), UNDO_MS)
  }
  return {
    just,
    isSettling,
    logged,
    tapped: (what) => {
      logged(what)
      clearTimeout(settles)
      setSettling(true)
      settles = setTimeout(() => setSettling(false), BOUNCE_MS)
    },
    forget: () => {
      clear()
      setSettling(false)
      setJust(undefined)
    },
  }
}
