import { createSignal, For, Show } from 'solid-js'
import { ofKind } from '../../api/domain/job/standing.ts'
import { AddPersonSheet } from '../parts/AddPersonSheet.tsx'
import { DeviceLine } from '../parts/DeviceLine.tsx'
import { InviteSheet } from '../parts/InviteSheet.tsx'
import { RoleSheet } from '../parts/RoleSheet.tsx'
import { ScreenHead } from '../parts/ScreenHead.tsx'
import { SetAsideSheet } from '../parts/SetAsideSheet.tsx'
import { StateMark } from '../parts/StateMark.tsx'
import { WithdrawDeviceSheet } from '../parts/WithdrawDeviceSheet.tsx'
import { usePhone } from '../state/phone.ts'

type Over =
  | { readonly is: 'add' }
  | { readonly is: 'invite' | 'role'; readonly person: string }
  | { readonly is: 'withdraw' | 'set-aside'; readonly device: string }

/** Who may log and read, and on what. */
export const PeopleScreen = () => {
  const { t, jobs } = usePhone()
  const [over, setOver] = createSignal<Over>()
  const close = () => setOver(undefined)
  const person = (is: 'invite' | 'role') => {
    const now = over()
    return now?.is === is && 'person' in now ? now.person : undefined
  }
  const device = (is: 'withdraw' | 'set-aside') => {
    const now = over()
    return now?.is === is && 'device' in now ? now.device : undefined
  }
  return (
    <main>
      <ScreenHead title={t('people')} />
      <Show when={jobs.mayMake('person.added')}>
        <button type="button" class="main wide" onClick={() => setOver({ is: 'add' })}>
          {t('addPerson')}
        </button>
      </Show>
      <For each={[...jobs.members().people.keys()]}>
        {(id) => <PersonCard person={id} onOver={setOver} />}
      </For>
      <Show when={over()?.is === 'add'}>
        <AddPersonSheet onClose={close} />
      </Show>
      <Show when={person('invite')} keyed>
        {(id) => <InviteSheet person={id} onClose={close} />}
      </Show>
      <Show when={person('role')} keyed>
        {(id) => <RoleSheet person={id} onClose={close} />}
      </Show>
      <Show when={device('withdraw')} keyed>
        {(id) => <WithdrawDeviceSheet device={id} onClose={close} />}
      </Show>
      <Show when={device('set-aside')} keyed>
        {(id) => <SetAsideSheet device={id} onClose={close} />}
      </Show>
    </main>
  )
}

const PersonCard = (props: { person: string; onOver: (over: Over) => void }) => {
  const { t, jobs, own } = usePhone()
  const is = () => jobs.members().people.get(props.person)
  const devices = () =>
    [...jobs.members().devices.values()].filter((d) => d.person === props.person).map((d) => d.device)
  const added = () =>
    ofKind(jobs.companyEntries(), 'person.added').find((e) => e.entry.body.person === props.person)
  const onServer = () => {
    const entry = added()
    return !entry || own.whereIs(entry.hash) === 'on-server'
  }
  /** Where the newest change of the role is, once there was one. */
  const changed = () =>
    ofKind(jobs.companyEntries(), 'role.changed').findLast((e) => e.entry.body.person === props.person)
  const newest = () => changed() ?? added()
  return (
    <article class="card">
      <h2>{is()?.name}</h2>
      <p>
        {t(is()?.role ?? 'crew')}
        <Show when={newest()}>
          {(entry) => (
            <>
              {' '}
              <StateMark where={own.whereIs(entry().hash)} />
            </>
          )}
        </Show>
      </p>
      <Show when={jobs.mayMake('role.changed')}>
        <button type="button" onClick={() => props.onOver({ is: 'role', person: props.person })}>
          {t('changeRole')}
        </button>
      </Show>
      <ul class="plain-list">
        <For each={devices()}>
          {(device) => (
            <DeviceLine
              device={device}
              onWithdraw={() => props.onOver({ is: 'withdraw', device })}
              onSetAside={() => props.onOver({ is: 'set-aside', device })}
            />
          )}
        </For>
      </ul>
      <Show when={devices().length === 0}>
        <p>{t('noDevices')}</p>
      </Show>
      <Show when={jobs.mayDo('invite')}>
        <Show when={onServer()} fallback={<p>{t('codeNeedsServer')}</p>}>
          <button type="button" onClick={() => props.onOver({ is: 'invite', person: props.person })}>
            {t('joinCode')}
          </button>
        </Show>
      </Show>
    </article>
  )
}
