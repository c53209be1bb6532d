import { createSignal, For, Show } from 'solid-js'
import { ofKind } from '../../api/domain/job/standing.ts'
import { AddPersonSheet } from '../parts/AddPersonSheet.tsx'
import { InviteSheet } from '../parts/InviteSheet.tsx'
import { ScreenHead } from '../parts/ScreenHead.tsx'
import { StateMark } from '../parts/StateMark.tsx'
import { WithdrawDeviceSheet } from '../parts/WithdrawDeviceSheet.tsx'
import { usePhone } from '../state/phone.ts'

/** Who may log and read, and on what. */
export const PeopleScreen = () => {
  const { t, jobs, own, identity } = usePhone()
  const [over, setOver] = createSignal<
    { is: 'add' } | { is: 'invite'; person: string } | { is: 'withdraw'; device: string }
  >()
  const people = () => [...jobs.members().people.keys()]
  const person = (id: string) => jobs.members().people.get(id)
  const devicesOf = (id: string) => [...jobs.members().devices.values()].filter((d) => d.person === id)
  const invites = () => {
    const now = over()
    return now?.is === 'invite' ? now.person : undefined
  }
  const withdraws = () => {
    const now = over()
    return now?.is === 'withdraw' ? now.device : undefined
  }
  const addedBy = (id: string) =>
    ofKind(jobs.companyEntries(), 'person.added').find((e) => e.entry.body.person === id)
  const onServer = (id: string) => {
    const added = addedBy(id)
    return !added || own.whereIs(added.hash) === 'on-server'
  }
  return (
    <main>
      <ScreenHead title={t('people')} />
      <Show when={jobs.mayMake('person.added')}>
        <button type="button" class="main wide" onClick={() => setOver({ is: 'add' })}>
          {t('addPerson')}
        </button>
      </Show>
      <For each={people()}>
        {(id) => (
          <article class="card">
            <h2>{person(id)?.name}</h2>
            <p>
              {t(person(id)?.role ?? 'crew')}
              <Show when={addedBy(id)}>
                {(added) => (
                  <>
                    {' '}
                    <StateMark where={own.whereIs(added().hash)} />
                  </>
                )}
              </Show>
            </p>
            <ul class="plain-list">
              <For each={devicesOf(id).map((d) => d.device)}>
                {(device) => {
                  const is = () => jobs.members().devices.get(device)
                  return (
                    <li class="device">
                      <span>
                        {t(is()?.use === 'office' ? 'deviceOffice' : 'devicePhone')} {device.slice(-6)}
                        {device === identity()?.device ? ` · ${t('thisDevice')}` : ''}
                        {is()?.withdrawn ? ` · ${t('deviceWithdrawn')}` : ''}
                      </span>
                      <Show when={!is()?.withdrawn && jobs.mayMake('device.withdrawn')}>
                        <button type="button" onClick={() => setOver({ is: 'withdraw', device })}>
                          {t('withdrawDevice')}
                        </button>
                      </Show>
                    </li>
                  )
                }}
              </For>
            </ul>
            <Show when={devicesOf(id).length === 0}>
              <p>{t('noDevices')}</p>
            </Show>
            <Show when={jobs.mayDo('invite')}>
              <Show when={onServer(id)} fallback={<p>{t('codeNeedsServer')}</p>}>
                <button type="button" onClick={() => setOver({ is: 'invite', person: id })}>
                  {t('joinCode')}
                </button>
              </Show>
            </Show>
          </article>
        )}
      </For>
      <Show when={over()?.is === 'add'}>
        <AddPersonSheet onClose={() => setOver(undefined)} />
      </Show>
      <Show when={invites()} keyed>
        {(id) => <InviteSheet person={id} onClose={() => setOver(undefined)} />}
      </Show>
      <Show when={withdraws()} keyed>
        {(device) => <WithdrawDeviceSheet device={device} onClose={() => setOver(undefined)} />}
      </Show>
    </main>
  )
}
