import { Show } from 'solid-js'
import { isDemoOrigin } from '../../api/domain/log/device-log.ts'
import { usePhone } from '../state/phone.ts'

/**
 * On every page of a demonstration: nobody may take what it shows for a real pour. The page says it of itself, and so does
 * the log that this device joined, whoever serves it.
 */
export const DemoStrip = () => {
  const { t, identity } = usePhone()
  const isDemo = () => 'demo' in document.documentElement.dataset || isDemoOrigin(identity()?.origin ?? '')
  return (
    <Show when={isDemo()}>
      <p class="demo-strip">
        <strong>DEMO</strong> {t('demoStrip')}
      </p>
    </Show>
  )
}
