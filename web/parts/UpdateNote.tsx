import { Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'
import { createUpdate } from '../state/update.ts'

/** A newer app is loaded and waits. It takes over when somebody says so, never over a form that is being filled in. */
export const UpdateNote = () => {
  const { t } = usePhone()
  const { waits, takeOver } = createUpdate()
  return (
    <Show when={waits()}>
      <div class="update">
        <span>{t('updateWaits')}</span>
        <button type="button" onClick={takeOver}>
          {t('updateNow')}
        </button>
      </div>
    </Show>
  )
}
