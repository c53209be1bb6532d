import { createSignal, Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'
import { SaveButton } from './SaveButton.tsx'
import { Sheet } from './Sheet.tsx'

/** Takes a device out of the company. Two touches: what it costs is said in between. */
export const WithdrawDeviceSheet = (props: { device: string; onClose: () => void }) => {
  const { t, identity, jobs, log, localNow } = usePhone()
  const [sure, setSure] = createSignal(false)
  const owner = () => jobs.nameOf(jobs.members().devices.get(props.device)?.person)
  const withdraw = async () => {
    const is = identity()
    if (!is) return
    const body = { device: props.device }
    const occurredAt = localNow(is.zone)
    if (await log({ job: is.company, kind: 'device.withdrawn', body, occurredAt, source: 'tap' }))
      props.onClose()
  }
  return (
    <Sheet title={t('withdrawDevice')} onClose={props.onClose}>
      <p class="entry-value">
        {owner()} · {props.device.slice(-6)}
      </p>
      <p>{t('withdrawHelp')}</p>
      <Show when={props.device === identity()?.device}>
        <p class="odd">⚠ {t('withdrawOwn')}</p>
      </Show>
      <div class="form-end">
        <Show
          when={sure()}
          fallback={
            <button type="button" onClick={() => setSure(true)}>
              {t('withdrawFirst')}
            </button>
          }
        >
          <SaveButton onSave={withdraw} label={t('withdrawReally')} />
        </Show>
      </div>
    </Sheet>
  )
}
