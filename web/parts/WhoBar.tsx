import { Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'

/** On a shared phone always in view: in whose name the next tap is logged. Touched, it asks again. */
export const WhoBar = () => {
  const { t, jobs, who } = usePhone()
  const name = () => jobs.nameOf(who.person())
  return (
    <Show when={who.isShared()}>
      <button type="button" class="who-bar" onClick={who.ask}>
        {name() === undefined ? `⚠ ${t('whoNobody')}` : t('whoNow', { name: name() ?? '' })}
      </button>
    </Show>
  )
}
