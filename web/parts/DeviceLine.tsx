import { Show } from 'solid-js'
import type { Device } from '../../api/domain/access/members.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'

const USES: Readonly<Record<Device['use'], LabelKey>> = {
  phone: 'devicePhone',
  office: 'deviceOffice',
  shared: 'deviceShared',
  server: 'theServer',
}

/** One device of a person, what was set aside from it, and what can be done about it. */
export const DeviceLine = (props: { device: string; onWithdraw: () => void; onSetAside: () => void }) => {
  const { t, jobs, identity } = usePhone()
  const is = () => jobs.members().devices.get(props.device)
  const setAside = () => [...jobs.quarantine().values()].filter((e) => e.device === props.device)
  const count = (what: 'admitted' | 'declined' | 'refused') => setAside().filter((e) => e.is === what).length
  const waiting = () => setAside().filter((e) => e.is === 'waiting').length
  return (
    <li class="device">
      <span>
        {t(USES[is()?.use ?? 'phone'])} {props.device.slice(-6)}
        {props.device === identity()?.device ? ` · ${t('thisDevice')}` : ''}
        {is()?.withdrawn ? ` · ${t('deviceWithdrawn')}` : ''}
      </span>
      <Show when={!is()?.withdrawn && jobs.mayMake('device.withdrawn')}>
        <button type="button" onClick={props.onWithdraw}>
          {t('withdrawDevice')}
        </button>
      </Show>
      <Show when={setAside().length > 0}>
        <p>
          {t('setAsideFrom', { count: waiting() })}
          <Show when={waiting() < setAside().length}>
            <br />
            {t('setAsideDecided', {
              admitted: count('admitted'),
              declined: count('declined'),
              refused: count('refused'),
            })}
          </Show>
        </p>
        <Show when={jobs.mayMake('push.decided')}>
          <button type="button" onClick={props.onSetAside}>
            {t('setAsideLook')}
          </button>
        </Show>
      </Show>
    </li>
  )
}
