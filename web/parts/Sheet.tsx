import { type JSX, onCleanup, onMount } from 'solid-js'
import { usePhone } from '../state/phone.ts'
import { openSheet } from '../state/sheet-history.ts'
import { Alarm } from './Alarm.tsx'
import { KeyPad } from './pads/KeyPad.tsx'
import { createKeyPad, KeyPadContext } from './pads/key-pad.ts'
import { WhoBar } from './WhoBar.tsx'

/**
 * A form or a question over the whole phone. It closes by its own buttons or the phone's "back", never by a touch
 * beside it: a wet sleeve must not throw away what was typed.
 */
export const Sheet = (props: { title: string; onClose: () => void; children: JSX.Element }) => {
  const { t } = usePhone()
  let dialog!: HTMLDialogElement
  let gone = false
  const pad = createKeyPad()
  onMount(() => {
    dialog.showModal()
    const leave = openSheet(() => props.onClose())
    onCleanup(leave)
  })
  onCleanup(() => {
    gone = true
    dialog.close()
  })
  return (
    <dialog
      class="sheet"
      ref={dialog}
      aria-label={props.title}
      onCancel={(event) => {
        event.preventDefault()
        props.onClose()
      }}
      // A browser may close a dialog at the second "back" without asking.
      onClose={() => {
        if (!gone) props.onClose()
      }}
    >
      <header class="sheet-head">
        <h2>{props.title}</h2>
        <button type="button" class="plain" onClick={() => props.onClose()}>
          {t('cancel')}
        </button>
      </header>
      {/* What lies outside a modal dialog can be neither seen nor pressed. */}
      <Alarm />
      <WhoBar />
      <KeyPadContext.Provider value={pad}>
        <div class="sheet-body">{props.children}</div>
      </KeyPadContext.Provider>
      <KeyPad pad={pad} />
    </dialog>
  )
}
