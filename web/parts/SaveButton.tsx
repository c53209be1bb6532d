import { createSignal } from 'solid-js'
import { usePhone } from '../state/phone.ts'

/** Saves once, however often it is hit. The caller closes the form only after the phone has kept the entry. */
export const SaveButton = (props: {
  onSave: () => Promise<unknown>
  label?: string
  disabled?: boolean
  /** Beside a main button. */
  second?: boolean
}) => {
  const { t } = usePhone()
  const [busy, setBusy] = createSignal(false)
  const press = async () => {
    if (busy()) return
    setBusy(true)
    await props.onSave().finally(() => setBusy(false))
  }
  return (
    <button
      type="button"
      classList={{ main: !props.second }}
      disabled={(props.disabled ?? false) || busy()}
      onClick={() => void press()}
    >
      {busy() ? t('keeping') : (props.label ?? t('save'))}
    </button>
  )
}
