import { createEffect, createMemo, createSignal, onCleanup } from 'solid-js'

export type Later<T> = { readonly value: () => T | undefined; readonly failed: () => boolean }

/**
 * What `work` comes to, undefined until then. Unlike a resource it never suspends the screen around it: a photo that is
 * still being read must not take the load card, or an open form, off the screen.
 */
export const createLater = <S, T>(source: () => S | undefined, work: (source: S) => Promise<T>): Later<T> => {
  const [value, setValue] = createSignal<T>()
  const [failed, setFailed] = createSignal(false)
  const wantedSource = createMemo(source)
  createEffect(() => {
    const from = wantedSource()
    let wanted = true
    onCleanup(() => {
      wanted = false
    })
    setValue(undefined)
    setFailed(false)
    if (from === undefined) return
    work(from).then(
      (found) => wanted && setValue(() => found),
      (error: unknown) => {
        console.error(error)
        if (wanted) setFailed(true)
      },
    )
  })
  return { value, failed }
}
