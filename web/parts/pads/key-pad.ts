import { createContext, createSignal, onCleanup, useContext } from 'solid-js'

/** The field that the keys write into. */
export type KeyField = { readonly input: HTMLInputElement; readonly keys: 'numeric' | 'decimal' }

export type KeyPadState = {
  readonly field: () => KeyField | undefined
  /** A field that takes digits has the focus. */
  open(field: KeyField): void
  close(): void
}

/** Wider screens have keys of their own. Source: our choice. */
const NARROW = '(max-width: 48rem)'

export const createKeyPad = (): KeyPadState => {
  const [field, setField] = createSignal<KeyField>()
  return {
    field,
    open: (next) => {
      if (!matchMedia(NARROW).matches) return
      // The phone's own keyboard stays down; a keyboard that is plugged in goes on working.
      next.input.inputMode = 'none'
      setField(next)
      requestAnimationFrame(() => next.input.scrollIntoView({ block: 'nearest' }))
    },
    close: () => setField(undefined),
  }
}

export const KeyPadContext = createContext<KeyPadState>()

/** For a field: opens the pad of its sheet, and takes it away with the field. */
export const useKeyPad = () => {
  const pad = useContext(KeyPadContext)
  let mine: HTMLInputElement | undefined
  onCleanup(() => {
    if (pad?.field()?.input === mine) pad?.close()
  })
  return (input: HTMLInputElement, keys: string | undefined): void => {
    mine = input
    if (keys === 'numeric' || keys === 'decimal') pad?.open({ input, keys })
    else pad?.close()
  }
}

/** Writes into a field as a keyboard would, so that whoever listens hears of it. */
export const typeInto = (input: HTMLInputElement, change: (text: string) => string): void => {
  const text = change(input.value)
  if (text.length > input.maxLength && input.maxLength >= 0) return
  input.value = text
  input.dispatchEvent(new InputEvent('input', { bubbles: true }))
}
