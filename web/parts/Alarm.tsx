import { Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'

/** Says loudly that something was not kept. It stays until somebody presses that they have read it. */
export const Alarm = () => {
  const { t, alarm, clearAlarm } = usePhone()
  return (
    <Show when={alarm()}>
      {(what) => (
        <div class="alarm" role="alert">
          <strong>{t('notKept')}</strong>
          <p>{t('notKeptHelp')}</p>
          <p class="small">{what()}</p>
          <button type="button" onClick={clearAlarm}>
            {t('understood')}
          </button>
        </div>
      )}
    </Show>
  )
}
